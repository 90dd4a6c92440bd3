"""Awkward but plausible files, and what each must give, worked out here alone with NumPy.

    python3 tests/oracles/awkward-files.py > tests/readers/awkward.json

All invented. `refused` is a pattern that the problem's words must match; `table` and `track` count
rows and fixes; `known` is what must be recognised, times in seconds since 1970.
"""

import base64
import datetime
import io
import json
import sys
import zipfile

import numpy as np

NM = np.arange(350, 2501, 50).astype(float)
CASES = []


def reflectance(nm, kind=0):
    nm = np.asarray(nm, float)
    curve = 0.32 + 0.00008 * (nm - 350) - 0.11 * np.exp(-(((nm - 2205) / 60) ** 2))
    return np.round(curve + 0.013 * kind, 4)


def scan(nm=NM, r=None, kind=0, name=None, **known):
    nm = np.asarray(nm, float)
    r = reflectance(nm, kind) if r is None else np.asarray(r, float)
    order = np.argsort(nm)
    values = [None if np.isnan(v) else round(float(v), 7) for v in r[order]]
    return {"nm": [round(float(v), 4) for v in nm[order]], "r": values,
            **({} if name is None else {"name": name}), **({"known": known} if known else {})}


def add(name, data, *scans, encoding="utf-8", **expected):
    raw = data.encode(encoding) if isinstance(data, str) else data
    plain = isinstance(data, str) and encoding == "utf-8"
    held = {"text": data} if plain else {"base64": base64.b64encode(raw).decode()}
    CASES.append({"name": name, **held, "scans": list(scans), **expected})


def rows(separator="\t", decimal=".", nm=NM, r=None, kind=0, value="%.4f", wavelength=None):
    r = reflectance(nm, kind) if r is None else r
    first = wavelength or (lambda v: "%g" % v)
    lines = [separator.join([first(a).replace(".", decimal), (value % b).replace(".", decimal)])
             for a, b in zip(nm, r)]
    return "\n".join(lines) + "\n"


def table(heading, columns, separator=",", form="%g", decimal="."):
    lines = [separator.join((form % v).replace(".", decimal) for v in row) for row in zip(*columns)]
    return heading + "\n" + "\n".join(lines) + "\n"


def at(*clock, zone=0.0):
    moment = datetime.datetime(*clock, tzinfo=datetime.timezone.utc)
    return moment.timestamp() - 3600 * zone


NOON = (2024, 5, 6, 11, 43, 15)


def languages():
    add("de", "Proben-ID: GR-12\nDatum: 06.05.2024\nUhrzeit: 11:43:15\nBediener: Jens\n"
        "Wellenlänge (nm);Reflexionsgrad (%)\n" + rows(";", ",", r=100 * reflectance(NM)),
        scan(sample="GR-12", time=at(*NOON), operator="Jens"))
    add("fr", "Échantillon : FR-3\nDate : 2024-05-06\nHeure : 11h43\nOpérateur : Zoé\n"
        "Longueur d’onde (µm)\tRéflectance\n" + rows("\t", ",", nm=NM / 1000, r=reflectance(NM)),
        scan(sample="FR-3", time=at(2024, 5, 6, 11, 43), operator="Zoé"))
    add("es", "Muestra;ES-1\nFecha;16-05-2024\nHora;11:43:15\nLatitud;-24,1\nLongitud;-69,1\n"
        "Longitud de onda (nm);Reflectancia (%)\n" + rows(";", ",", r=100 * reflectance(NM)),
        scan(sample="ES-1", time=at(2024, 5, 16, 11, 43, 15), latitudeText="-24,1",
             longitudeText="-69,1"))
    add("pt", "Amostra: BR-1\nData: 16/05/2024\nHora: 11:43:15\nOperador: Inês\n"
        "Comprimento de onda (nm);Refletância\n" + rows(";", ","),
        scan(sample="BR-1", time=at(2024, 5, 16, 11, 43, 15), operator="Inês"))
    add("zh", "样品：CN-1\n日期：2024年5月6日\n时间：11:43:15\n波长(nm),反射率\n" + rows(","),
        scan(sample="CN-1", time=at(*NOON)))
    add("zh in GB 18030", "样品: CN-1\n波长(nm),反射率(%)\n" + rows(",", r=100 * reflectance(NM)),
        scan(), encoding="gb18030")
    heads = {"de": "Wellenlänge (nm);Extinktion", "fr": "Longueur d'onde (nm);Absorbance",
             "es": "Longitud de onda (nm);Transmitancia", "pt": "Comprimento de onda;Absorbância",
             "zh": "波长(nm);吸光度", "it": "Lunghezza d'onda (nm);Assorbanza"}
    for language, head in heads.items():
        add(f"no reflectance, {language}", head + "\n" + rows(";", ",", r=-np.log10(reflectance(NM))),
            refused="no reflectance")
    panel, dark = np.round(9000 + 2 * (NM - 350)), np.full_like(NM, 400.0)
    spots = [np.round((panel - dark) * reflectance(NM, k) + dark) for k in range(3)]
    ratio = [(spot - dark) / (panel - dark) for spot in spots]
    add("counts, de", table("Wellenlänge;Referenz;Probe;Dunkel", [NM, panel, spots[0], dark], ";",
                            "%.1f", ","), scan(r=ratio[0]))
    add("counts of a panel and three spots",
        table("Wavelength,White,Dark,G-1,G-2,G-3", [NM, panel, dark, *spots]),
        *[scan(r=ratio[k], name=f"G-{k + 1}") for k in range(3)])


def columns():
    for name, heads in {
        "S1 to S12": [f"S{i + 1}" for i in range(12)],
        "101 to 112": [str(101 + i) for i in range(12)],
        "spectrum 1 to 12": [f"spectrum {i + 1}" for i in range(12)],
    }.items():
        values = [reflectance(NM, k) for k in range(12)]
        add(f"columns {name}", table("Wavelength," + ",".join(heads), [NM, *values]),
            *[scan(kind=k, name=heads[k]) for k in range(12)])
    depths = ["%.1f" % (100 + 1.5 * i) for i in range(14)]
    add("columns headed by depths",
        table("Depth (m)," + ",".join(depths), [NM, *[reflectance(NM, k) for k in range(14)]]),
        *[scan(kind=k, name=depths[k], depth=float(depths[k])) for k in range(14)])
    wide = "Wavelength," + ",".join("%g" % v for v in NM) + "\n"
    wide += "".join(f"{401 + k}," + ",".join("%.4f" % v for v in reflectance(NM, k)) + "\n"
                    for k in range(35))
    add("wide under Wavelength, rows named by numbers", wide, *[scan(kind=k) for k in range(35)])
    for name, form in {"R[350]": "R[%g]", "R(350)": "R(%g)", "R@350": "R@%g",
                       "350.0 nm": "%.1f nm", "X350.0": "X%.1f"}.items():
        lead = ["Sample", "East", "North", "Depth", "Year", "Rock", "Operator", "Comment"]
        text = ",".join([*lead, *[form % v for v in NM]]) + "\n"
        for k in range(2):
            own = [f"S{k}", "500100", "7300200", "12.5", "2024", "tuff", "Ana", '"wet, a bit"']
            text += ",".join([*own, *["%.4f" % v for v in reflectance(NM, k)]]) + "\n"
        add(f"wide {name}", text,
            *[scan(kind=k, name=f"S{k}", sample=f"S{k}", comment="wet, a bit") for k in range(2)])
    pairs = [NM, reflectance(NM), NM, reflectance(NM, 3)]
    add("pairs of columns on one axis", table("nm,rock A,nm,rock B", pairs),
        scan(name="rock A"), scan(kind=3, name="rock B"))
    pairs = [NM, reflectance(NM), NM + 2.5, reflectance(NM, 3)]
    add("pairs on two axes", table("Wavelength A,Reflectance A,Wavelength B,Reflectance B", pairs),
        refused="column 3 holds wavelengths too")
    add("a spreadsheet's empty cells",
        "\ufeffOperator,Ana,,\r\nDate,2024-05-06 11:43:15,,\r\n,,,\r\nWavelength,A,B,\r\n"
        + "".join(f"{a:g},{b:.4f},{b + 0.013:.4f},\r\n" for a, b in zip(NM, reflectance(NM))),
        *[scan(kind=k, name="AB"[k], operator="Ana", time=at(*NOON)) for k in range(2)])
    add("line breaks in headings", '"Wavelength\r\n(µm)","Rock A\r\n(%)","Rock B\r\n(%)"\r\n'
        + "".join(f"{a / 1000:g},{100 * b:.2f},{100 * b + 1.3:.2f}\r\n"
                  for a, b in zip(NM, reflectance(NM))),
        *[scan(kind=k, name=f"Rock {'AB'[k]} (%)") for k in range(2)])


def more_columns():
    r, s = reflectance(NM), reflectance(NM, 1)
    widths = 3 + NM / 400
    add("widths of channels", table("wavelength,fwhm,GR-12,Flag", [NM, widths, r, 0 * NM]),
        scan(name="GR-12"))
    add("worked out of reflectance",
        table("Wavelength,Reflectance,Continuum-removed reflectance,1st derivative of reflectance",
              [NM, r, np.round(r / 0.6, 4), 0 * NM + 0.001]), scan())
    add("delimiters inside quotes", '"Wavelength (nm)","GR-12, face","GR-13, vein"\n'
        + "".join(f"{a:g},{b:.4f},{c:.4f}\n" for a, b, c in zip(NM, r, s)),
        scan(name="GR-12, face"), scan(kind=1, name="GR-13, vein"))
    add("names above headings alike", "\tGR-12\tGR-13\nWavelength\tReflectance\tReflectance\n"
        + "".join(f"{a:g}\t{b:.4f}\t{c:.4f}\n" for a, b, c in zip(NM, r, s)),
        scan(name="GR-12"), scan(kind=1, name="GR-13"))
    add("blanks that do not break", "Wavelength\u00a0Reflectance\n" + rows("\u00a0"), scan())
    add("a spreadsheet's own first line", "sep=;\nWavelength;Reflectance\n" + rows(";", ","), scan())
    add("lines that end the other way", ("Wavelength\tReflectance\n" + rows()).replace("\n", "\n\r"),
        scan())
    wide = "".join(f"{k},A{k}," + ",".join("%.4f" % v for v in reflectance(NM, k)) + "\n"
                   for k in range(2))
    add("wide with numbered rows", ",sample," + ",".join("%.1f" % v for v in NM) + "\n" + wide,
        *[scan(kind=k, name=f"A{k}", sample=f"A{k}") for k in range(2)])
    wide = "".join(f"A{k}," + ",".join("%.4f" % v for v in reflectance(NM, k)) + "\n"
                   for k in range(2))
    add("wide under a merged cell", "Sample,Wavelength (nm)" + "," * 43 + "\n,"
        + ",".join("%g" % v for v in NM) + "\n" + wide,
        *[scan(kind=k, name=f"A{k}") for k in range(2)])
    long = "".join(f"S{k},{a:g},{b:.4f}\n" for k in range(2) for a, b in zip(NM, r))
    add("a row for each wavelength", "sample,wavelength,reflectance\n" + long,
        refused="a row or a column of its own")
    add("channels alone", "Pixel\tReflectance\n" + "".join(f"{i}\t{b:.4f}\n" for i, b in enumerate(r)),
        refused="without wavelengths")
    add("rows in quotes", '"Wavelength,Reflectance"\n'
        + "".join(f'"{a:g},{b:.4f}"\n' for a, b in zip(NM, r)), refused="take off the quotes")
    add("percent in cells", "nm,R\n" + "".join(f"{a:g},{100 * b:.2f}%\n" for a, b in zip(NM, r)),
        refused="units into the heading")


def numbers():
    marks = ["-9999", "1.#IND", "-1.#INF", "inf", "#DIV/0!", "#NV", "—", "overflow"]
    r = reflectance(NM)
    for mark in marks:
        gaps = r.copy()
        gaps[[0, 1, 20]] = np.nan
        lines = [f"{a:g}\t{mark if np.isnan(g) else '%.4f' % g}" for a, g in zip(NM, gaps)]
        add(f"gaps as {mark}", "Wavelength\tReflectance\n" + "\n".join(lines) + "\n", scan(r=gaps))
    fortran = "".join(("%.4E %.5E\n" % pair).replace("E", "D") for pair in zip(NM, r))
    add("doubles of Fortran", "WAVELENGTH REFLECTANCE\n" + fortran, scan())
    add("printed minus signs", "Wavelength;Reflectance\n"
        + rows(";", ",", r=r - 0.34).replace("-", "\u2212"), scan(r=np.round(r - 0.34, 4)))
    add("thousands", "Wellenlänge;Reflexion\n" + rows(
        ";", ",", wavelength=lambda v: f"{v:,.1f}".replace(",", "_").replace(".", ",")
        .replace("_", ".")), refused="thousands")
    add("hashes", "Wavelength\tReflectance\n" + rows().replace("0.3240", "########"),
        refused="widen the column")
    add("units in cells", "Wavelength;Reflectance\n"
        + rows(";", ",", wavelength=lambda v: "%g nm" % v, value="%.4f %%"), refused="units|numbers")
    add("pairs below", "Wavelength\tReflectance\n" + rows() + "# exported 2024-05-06\n"
        "Comment: wet sample 3\nOperator: Ana\n", scan(comment="wet sample 3", operator="Ana"))
    seams = np.concatenate([np.arange(350, 1001, 25.0), np.arange(1000, 1801, 40.0),
                            np.arange(1800, 2501, 50.0)])
    values = reflectance(seams).copy()
    again = np.where(np.diff(seams) == 0)[0] + 1
    values[again] = np.round(1.004 * values[again], 4)
    once = np.ones(len(seams), bool)
    once[again] = False
    add("wavelengths twice at the joins", "Wavelength\tReflectance\n" + rows(nm=seams, r=values),
        scan(nm=seams[once], r=values[once]))
    even = np.sort(np.concatenate([NM, [1000, 1800]]))
    values = reflectance(even) * np.where(np.diff(even, prepend=0) == 0, 1.004, 1)
    add("wavelengths twice on an even axis", "Wavelength\tReflectance\n"
        + rows(nm=even, r=values), refused="1000 stands twice, again at line")
    add("4,000 lines above", "".join(f"Parameter {i}: {i}\n" for i in range(4000)) + rows(),
        refused="first 3000 lines")


def other_axes():
    r = reflectance(NM)
    add("ångström", "Wavelength (Å)\tReflectance\n" + rows(nm=10 * NM, r=r), refused="Å")
    add("electronvolts", "Energy (eV)\tReflectance\n"
        + rows(nm=np.round(1239.842 / NM, 6), r=r, wavelength=lambda v: "%.6f" % v), refused="eV")
    add("terahertz", "Frequency (THz)\tReflectance\n"
        + rows(nm=np.round(299792.458 / NM, 4), r=r, wavelength=lambda v: "%.4f" % v), refused="THz")
    angles = np.arange(5, 70, 0.5)
    add("diffraction", "2Theta\tIntensity\n" + rows(nm=angles, r=300 + angles), refused="2Theta")
    shifts = np.arange(120, 1800, 20.0)
    add("Raman", "Raman shift (cm-1)\tIntensity\n" + rows(nm=shifts, r=90 + shifts / 40),
        refused="Raman")
    wavenumbers = np.arange(4000, 400, -40.0)
    add("a frequency in cm-1", "Frequency (cm-1)\tReflectance\n"
        + rows(nm=wavenumbers, r=0.3 + 0.00001 * wavenumbers),
        scan(nm=1e7 / wavenumbers, r=np.round(0.3 + 0.00001 * wavenumbers, 4)))


def tables():
    add("assays by number", table("SampleNo,Cu,Zn,Pb", [np.arange(1001, 1061), *[
        np.arange(60) % m + 20 for m in (7, 11, 5)]]), table=60)
    add("assays by depth", table("Depth,Cu,Au", [np.arange(200, 320), np.arange(120) % 7,
                                                 np.arange(120) % 5]), table=120)
    add("a time series", table("Time (s),Temperature", [np.arange(300, 420), np.arange(120) % 7]),
        table=120)
    body = "".join(f"S{i},{500000 + i},{7300000 + i},{i}\n" for i in range(5))
    add("units under headings", "Sample,East,North,Au\n,(m),(m),(ppm)\n" + body, table=5,
        header=["Sample", "East (m)", "North (m)", "Au (ppm)"])
    add("a heading in two lines", "Sample,Location,,Assay\n,East,North,Au\n" + body, table=5,
        header=["Sample", "East", "North", "Au"])
    add("breaks in a table's headings", '"Sample\nID","East\n(m)","North\n(m)",Au\n' + body, table=5,
        header=["Sample ID", "East (m)", "North (m)", "Au"])
    add("titles above a table", "Samples of May 2024,,,\nProject X,,,\n\nSample,East,North,Au\n"
        + body, table=5, header=["Sample", "East", "North", "Au"])


def fields():
    head = "\nWavelength\tReflectance\n"
    for text, seconds in {
        "2024-05-06T11:43:15.250+02:00": at(*NOON, zone=2) + 0.25,
        "2024-05-06 11:43:15 -0400": at(*NOON, zone=-4),
        "06-May-2024 11:43:15 AM GMT-05:00": at(*NOON, zone=-5),
        "6. Mai 2024 11:43:15": at(*NOON),
        "6 de mayo de 2024, 11:43:15": at(*NOON),
        "20240506 114315": at(*NOON),
        "2024-05-06T11:43:15+0530": at(*NOON, zone=5.5),
        "05/06/2024 11:43:15": None,
        "1714995795": None,
        "-1": None,
        "45418.4883": None,
        "2024-05-06 24:00:00": None,
    }.items():
        add(f"time {text}", f"Time: {text}{head}{rows()}", scan(time=seconds))
    add("UTC time", f"UTC time: 2024-05-06 11:43:15{head}{rows()}", scan(time=at(*NOON)), zone=True)
    add("hemispheres of their own", "Latitude: 24.1\nLatitude ref: S\nLongitude: 69.1\n"
        f"Longitude ref: W{head}{rows()}", scan(latitudeText="24.1 S", longitudeText="69.1 W"))


def packed(*entries):
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in entries:
            archive.writestr(zipfile.ZipInfo(name, (2024, 5, 6, 0, 0, 0)), data)
    return held.getvalue()


def archives():
    a, b = ["Wavelength\tReflectance\n" + rows(kind=k) for k in range(2)]
    add("zip with what desktops leave", packed(
        ("day/", ""), ("day/a.txt", a), ("../../b.txt", b), ("__MACOSX/day/._a.txt", "x"),
        ("day/.hidden", "x"), ("day/Thumbs.db", "x"), ("desktop.ini", "x")),
        scan(name="a"), scan(kind=1, name="b"))
    add("zip in a zip", packed(("in.zip", packed(("a.txt", a))), ("b.txt", b)),
        scan(kind=1, name="b"), scan(name="a"), anyOrder=True)
    deep = packed(("in.zip", packed(("deep.zip", packed(("a.txt", a)))))) 
    add("zip in a zip in a zip", deep, refused="unpack the outer ones")
    name = "prob\x82_\x81.txt".encode("latin-1")
    add("zip with a name in code page 437", packed(("probe_x.txt", a)).replace(b"probe_x.txt", name),
        scan(name="probé_ü"))
    add("zipped spreadsheet", packed(("mimetype", "x"), ("content.xml", "<x/>")), refused="CSV")
    add("zipped KML", packed(("doc.kml", "<kml/>")), refused="KML.*GPX")


def wrong_files():
    add("receiver's sentences", "$GPGGA,114315.00,2406.5083,S,06904.2000,W,1,08,1.0,2000.0,M,30.0,M,,*47\n"
        * 20, refused="NMEA 0183.*GPX")
    add("KML", '<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"/>', refused="KML.*GPX")
    add("a web page", "<html><body><table><tr><td>350</td></tr></table></body></html>", refused="CSV")
    add("rich text", "{\\rtf1\\ansi Wavelength\\par 350 0.3}", refused="CSV")
    add("a spreadsheet as XML", '<?xml version="1.0"?><Workbook/>', refused="CSV")
    noise = np.random.RandomState(2).bytes(5000).replace(b"\0", b"\1")
    add("noise without NUL", noise, refused="binary")
    tar = b"a.txt" + bytes(95) + b"0000644\0" + bytes(149) + b"ustar\0" + bytes(250)
    add("a tar archive", tar, refused="unpack")


def exchange():
    def block(lines):
        q = np.round(reflectance(NM) / 1e-4).astype(int)
        head = ["##TITLE= J1", "##JCAMP-DX= 4.24", "##XUNITS= NANOMETERS", "##YUNITS= REFLECTANCE",
                "##XFACTOR= 1", "##YFACTOR= 0.0001", "##FIRSTX= 350", "##LASTX= 2500",
                "##NPOINTS= 44", *lines, "##XYDATA= (X++(Y..Y))"]
        body = [" ".join(["%g" % NM[i], *["%d" % v for v in q[i:i + 8]]]) for i in range(0, 44, 8)]
        return "\n".join([*head, *body, "##END="]) + "\n"
    add("JCAMP-DX date of two digits", block(["##DATE= 24/05/06", "##TIME= 11:43:15 $$ local"]),
        scan(name="J1", time=at(*NOON)))
    add("JCAMP-DX in small letters", block([]).lower().replace("j1", "J1"), scan(name="J1"))
    add("JCAMP-DX Raman", block(["##DATA TYPE= RAMAN SPECTRUM"]), refused="RAMAN")
    add("JCAMP-DX hertz", block([]).replace("NANOMETERS", "HZ"), refused="HZ")


def main():
    for part in (languages, columns, more_columns, numbers, other_axes, tables, fields, archives, wrong_files, exchange):
        part()
    json.dump(CASES, sys.stdout, ensure_ascii=False, separators=(",", ":"))


main()
