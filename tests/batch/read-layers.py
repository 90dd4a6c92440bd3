"""Reads a folder of layers as somebody would who has docs/contracts.md and GDAL, and nothing of ours.

usage: read-layers.py LAYERS [INPUT_FOLDER...]
Prints a JSON list of faults, each a line of text. INPUT_FOLDERs are those that were given to
--scans and --places: the files' digests are compared with what report.json says.
Sources: RFC 4180 (CSV), RFC 7946 (GeoJSON), OGC 19-008r4 (GeoTIFF, as GDAL reads it), GPX 1.1,
OGC 05-077r4 (Symbology Encoding 1.1), FIPS 180-4 (SHA-256, by Python's hashlib).
"""
import hashlib, json, math, os, re, sys, unicodedata
from urllib.parse import unquote
from xml.etree import ElementTree
import numpy as np
from osgeo import gdal, ogr, osr

gdal.UseExceptions(); ogr.UseExceptions(); osr.UseExceptions()
NODATA = -9999.0
FOLDER, INPUTS = sys.argv[1], sys.argv[2:]
faults = []


def fault(file, words):
    faults.append(f'{file}: {words}')


def content(name):
    with open(os.path.join(FOLDER, name), 'rb') as file:
        return file.read()


# --- tables -------------------------------------------------------------------------------------
FIELD = re.compile(r'"((?:[^"]|"")*)"|([^",\r\n]*)')


def table(name):
    """Rows by the grammar of RFC 4180, of which Python's own reader takes more than it allows."""
    bytes_ = content(name)
    if bytes_.startswith(b'\xef\xbb\xbf'):
        fault(name, 'begins with a byte order mark')
    text = bytes_.decode('utf-8')
    if not text.endswith('\r\n'):
        fault(name, 'does not end in CRLF')
    rows, row, at = [], [], 0
    while at < len(text):
        match = FIELD.match(text, at)
        at = match.end()
        quoted = match.group(1) is not None
        value = match.group(1).replace('""', '"') if quoted else match.group(2)
        if re.match(r"[=@+\t\r\n]|-(?![0-9.])", value) or (value[:1] == '-' and not number(value)):
            fault(name, f'{value!r} would be run by a spreadsheet')
        if value[:1] == "'" and not quoted:
            fault(name, f'{value!r} has an apostrophe and no quotes')
        row.append(value)
        if text[at:at + 1] == ',':
            at += 1
        elif text[at:at + 2] == '\r\n':
            at += 2
            rows.append(row)
            row = []
        else:
            fault(name, f'a bare {text[at:at + 1]!r} at character {at}')
            return [], []
    header = rows[0] if rows else []
    if len(set(header)) != len(header):
        fault(name, 'two columns have one name')
    for i, cells in enumerate(rows[1:], 2):
        if len(cells) != len(header):
            fault(name, f'row {i} has {len(cells)} cells, not {len(header)}')
    return header, [dict(zip(header, cells)) for cells in rows[1:]]


def number(text):
    return re.fullmatch(r'-?[0-9]+(\.[0-9]+)?', text) is not None


DECIMALS = {'depth': 3, 'longitude': 7, 'latitude': 7, 'elevation': 2, 'noise': 6, 'share': 3, 'fit': 3}


def check_decimals(name, header, rows, indices):
    wanted = dict(DECIMALS, easting=None, northing=None, place_error=None)
    for column in [*wanted, *indices, *[f'{index} error' for index in indices]]:
        if column not in header:
            continue
        cells = [row[column] for row in rows if row[column] != '']
        if any(not number(cell) for cell in cells):
            fault(name, f'{column} holds what is no number')
        places = {len(cell.partition('.')[2]) for cell in cells}
        if len(places) > 1:
            fault(name, f'{column} has {sorted(places)} decimals')
        if wanted.get(column) is not None and places - {wanted[column]}:
            fault(name, f'{column} has {places} decimals, not {wanted[column]}')
        if any(cell.startswith('-') and float(cell) == 0 for cell in cells):
            fault(name, f'{column} holds a negative nought')


def check_words(name, rows):
    words = {
        'target': 'matrix vein selvage coating weathered cut'.split(),
        'support': 'outcrop float soil chips core'.split(),
        'placed_by': 'file track table hole hand'.split(),
        'check': ['sound', 'doubtful', 'set aside'],
    }
    for row in rows:
        for column, allowed in words.items():
            for word in row.get(column, '').split('; '):
                if word not in ['', *allowed]:
                    fault(name, f'{column} is {word!r}')
        for column in ('share', 'fit'):
            if row[column] != '' and not 0 <= float(row[column]) <= 1:
                fault(name, f'{column} is {row[column]}')


# --- GeoJSON ------------------------------------------------------------------------------------
def no_twins(pairs):
    keys = [key for key, _ in pairs]
    if len(set(keys)) != len(keys):
        raise ValueError('a member stands twice')
    return dict(pairs)


def no_constants(word):
    raise ValueError(f'{word} is no JSON')


def read_json(name):
    return json.loads(content(name).decode('utf-8'), object_pairs_hook=no_twins, parse_constant=no_constants)


def positions(coordinates):
    if coordinates and isinstance(coordinates[0], (int, float)):
        yield coordinates
    else:
        for part in coordinates:
            yield from positions(part)


def signed_area(ring):
    (x0, y0), rest = ring[0][:2], ring
    return sum((a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0) for a, b in zip(rest, rest[1:])) / 2


def features(name):
    collection = read_json(name)
    if collection.get('type') != 'FeatureCollection' or 'crs' in collection:
        fault(name, 'is no FeatureCollection, or has a crs')
    every = [p for f in collection['features'] if f['geometry'] for p in positions(f['geometry']['coordinates'])]
    if any(abs(p[0]) > 180 or abs(p[1]) > 90 for p in every):
        fault(name, 'a position is off the globe')
    if every:
        west, south = (min(p[i] for p in every) for i in (0, 1))
        east, north = (max(p[i] for p in every) for i in (0, 1))
        box = collection.get('bbox')
        flat = box and (box[:2] + box[-2:] if len(box) == 4 else [box[0], box[1], box[3], box[4]])
        if flat != [west, south, east, north]:
            fault(name, f'bbox is {box}, not {[west, south, east, north]}')
    names = {tuple(f['properties']) for f in collection['features']}
    if len(names) > 1:
        fault(name, 'features have different properties')
    for feature in collection['features']:
        if feature['type'] != 'Feature' or 'properties' not in feature:
            fault(name, 'holds what is no Feature')
        check_shape(name, feature['geometry'])
    return collection['features']


def check_shape(name, geometry):
    if geometry is None or geometry['type'] == 'Point':
        return
    polygons = {'Polygon': [geometry['coordinates']], 'MultiPolygon': geometry['coordinates']}
    for rings in polygons.get(geometry['type'], []):
        for i, ring in enumerate(rings):
            if len(ring) < 4 or ring[0] != ring[-1]:
                fault(name, 'a ring is open')
            if (signed_area(ring) > 0) != (i == 0):
                fault(name, 'a ring runs the wrong way')
        if not ogr.CreateGeometryFromJson(json.dumps({'type': 'Polygon', 'coordinates': rings})).IsValid():
            fault(name, f'GEOS finds a polygon at {rings[0][0]} wrong')


def check_stations(header, rows):
    name = 'stations.geojson'
    points = features(name)
    placed = [row for row in rows if row['longitude'] != '']
    if len(points) != len(placed):
        fault(name, f'has {len(points)} features; stations.csv has {len(placed)} with a place')
    for row, point in zip(placed, points):
        if list(point['properties']) != [plain(column) for column in header]:
            fault(name, 'has other columns than stations.csv')
        for column in header:
            said = point['properties'].get(plain(column))
            cell = row[column]
            same = cell == '' if said is None else (
                float(cell) == said if isinstance(said, (int, float)) else plain(cell) == said)
            if not same:
                fault(name, f"{column} of {row['station']} is {said!r}; stations.csv has {cell!r}")
        x, y = point['geometry']['coordinates'][:2]
        if (x, y) != (float(row['longitude']), float(row['latitude'])):
            fault(name, f"{row['station']} lies elsewhere than in stations.csv")


def plain(cell):
    return cell[1:] if cell[:1] == "'" else cell


def check_places(name, rows, crs):
    """Easting and northing against longitude and latitude, by PROJ."""
    if crs is None:
        return
    for row in rows:
        if row['longitude'] == '':
            continue
        x, y, _ = crs['from_globe'].TransformPoint(float(row['longitude']), float(row['latitude']))
        off = math.hypot(x - float(row['easting']), y - float(row['northing'])) * crs['metres']
        if off > 0.03:
            fault(name, f"{row['station']}: degrees and metres are {off:.3f} m apart")


# --- rasters ------------------------------------------------------------------------------------
def open_crs(code):
    if not code.startswith('EPSG:'):
        return None
    crs, globe = osr.SpatialReference(), osr.SpatialReference()
    crs.ImportFromEPSG(int(code[5:]))
    globe.ImportFromEPSG(4326)
    for reference in (crs, globe):
        reference.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return {'crs': crs, 'metres': crs.GetLinearUnits(), 'from_globe': osr.CoordinateTransformation(globe, crs)}


def check_raster(name, surface, crs, report_crs):
    data = gdal.Open(os.path.join(FOLDER, name))
    grid = surface['grid']
    wanted = (grid['west'], grid['cell'], 0, grid['north'], 0, -grid['cell'])
    if data.GetGeoTransform() != tuple(map(float, wanted)):
        fault(name, f'lies at {data.GetGeoTransform()}; report.json says {wanted}')
    if (data.RasterXSize, data.RasterYSize) != (grid['columns'], grid['rows']):
        fault(name, 'has another size than report.json says')
    for edge in (grid['west'], grid['north']):
        if abs(edge / grid['cell'] - round(edge / grid['cell'])) > 1e-9:
            fault(name, f'its edge {edge} is no multiple of its cell')
    said = data.GetSpatialRef()
    if crs and (said is None or not said.IsSame(crs['crs'], ['IGNORE_DATA_AXIS_TO_SRS_AXIS_MAPPING=YES'])):
        fault(name, f'is in {said and said.GetName()}')
    if not crs and said is not None:
        fault(name, 'a local grid has a CRS')
    structure = data.GetMetadata('IMAGE_STRUCTURE')
    # Without GeoKeys nothing says what a cell's value stands for, and GDAL tells nothing.
    if data.GetMetadataItem('AREA_OR_POINT') != ('Area' if crs else None):
        fault(name, f"AREA_OR_POINT is {data.GetMetadataItem('AREA_OR_POINT')}")
    if (structure.get('COMPRESSION'), structure.get('PREDICTOR')) != ('DEFLATE', '3'):
        fault(name, f'is compressed otherwise: {structure}')
    if not crs and not (data.GetMetadataItem('CRS') or '').startswith(report_crs):
        fault(name, f"its item CRS is {data.GetMetadataItem('CRS')}, not {report_crs}")
    bands = [data.GetRasterBand(i + 1) for i in range(data.RasterCount)]
    values = []
    for i, band in enumerate(bands, 1):
        if band.DataType != gdal.GDT_Float32 or band.GetNoDataValue() != NODATA or band.GetBlockSize() != [256, 256]:
            fault(name, f'band {i} is {band.DataType}, {band.GetNoDataValue()}, {band.GetBlockSize()}')
        if not band.GetDescription():
            fault(name, f'band {i} has no name')
        read = band.ReadAsArray()
        if not np.isfinite(read).all():
            fault(name, f'band {i} holds what is no number')
        values.append(np.where(read == NODATA, np.nan, read))
        if i > 1 or not surface.get('class_table'):
            check_statistics(name, i, band, values[-1])
        check_overviews(name, i, band, values[-1], surface)
    if any((np.isnan(v) != np.isnan(values[0])).any() for v in values):
        fault(name, 'bands are blank in different places')
    check_bands(name, surface, values)
    return data, values


def check_statistics(name, i, band, values):
    said = band.GetMetadata()
    if not np.isfinite(values).any():
        return
    for key, found in (('MINIMUM', np.nanmin(values)), ('MAXIMUM', np.nanmax(values))):
        stated = said.get(f'STATISTICS_{key}')
        if stated is None or abs(float(stated) - found) > 1e-6 * max(1, abs(found)):
            fault(name, f'band {i} says {key} {stated}; it is {found}')


def check_overviews(name, i, band, values, surface):
    large = max(values.shape) > 512
    if large != (band.GetOverviewCount() > 0):
        fault(name, f'{values.shape} cells and {band.GetOverviewCount()} overviews')
    if surface.get('class_table') and i == 1:
        return
    finer = values
    for level in range(band.GetOverviewCount()):
        read = band.GetOverview(level).ReadAsArray()
        read = np.where(read == NODATA, np.nan, read)
        rows, columns = (-(-n // 2) for n in finer.shape)
        padded = np.full((rows * 2, columns * 2), np.nan)
        padded[:finer.shape[0], :finer.shape[1]] = finer
        blocks = padded.reshape(rows, 2, columns, 2)
        counts = np.isfinite(blocks).sum(axis=(1, 3))
        with np.errstate(invalid='ignore'):
            means = np.where(counts > 0, np.nansum(blocks, axis=(1, 3)) / np.maximum(counts, 1), np.nan)
        if read.shape != means.shape or not np.allclose(read, means, rtol=1e-5, atol=1e-6, equal_nan=True):
            fault(name, f'overview {level} of band {i} is not the mean of the cells below')
        finer = read


def check_bands(name, surface, values):
    if surface.get('class_table'):
        codes = {row['code'] for row in surface['class_table']}
        found = set(np.unique(values[0][np.isfinite(values[0])]).astype(int))
        if len(values) != 3 or not found <= codes:
            fault(name, f'{len(values)} bands, codes {sorted(found)} of {sorted(codes)}')
        for row in surface['class_table']:
            nodes = int((values[0] == row['code']).sum())
            if row['nodes'] != nodes or abs(row['area'] - nodes * surface['grid']['cell'] ** 2) > 1e-6:
                fault(name, f"{row['class']} has {nodes} nodes; report.json says {row}")
        chances = values[1:]
    else:
        chances = values[:1] if surface['method'] in ('class-probability', 'chance-above') else []
        if len(values) == 3:
            with np.errstate(invalid='ignore'):
                if not np.allclose(values[2] ** 2, values[1], rtol=1e-5, atol=1e-12, equal_nan=True):
                    fault(name, 'band 3 is not the root of band 2')
    for chance in chances:
        if np.nanmin(chance) < 0 or np.nanmax(chance) > 1:
            fault(name, 'a chance is not from 0 to 1')


# --- contours and areas on the raster -----------------------------------------------------------
def to_grid(points, data, crs):
    """Column and row, in cells from the middle of the first cell."""
    west, cell, _, north, _, _ = data.GetGeoTransform()
    projected = np.array(crs['from_globe'].TransformPoints([p[:2] for p in points]))[:, :2]
    return (projected[:, 0] - west) / cell - 0.5, (north - projected[:, 1]) / cell - 0.5


def between_nodes(columns, rows, values):
    """Bilinear, NaN where one of the four nodes is."""
    height, width = values.shape
    c0 = np.clip(np.floor(columns).astype(int), 0, width - 2)
    r0 = np.clip(np.floor(rows).astype(int), 0, height - 2)
    u, v = columns - c0, rows - r0
    return (values[r0, c0] * (1 - u) * (1 - v) + values[r0, c0 + 1] * u * (1 - v)
            + values[r0 + 1, c0] * (1 - u) * v + values[r0 + 1, c0 + 1] * u * v)


def check_contours(name, data, values, crs):
    """Points of a line lie where the surface, linear along the grid's lines, has its level."""
    lines = features(name)
    spread = np.nanmax(values) - np.nanmin(values)
    wrong = higher = lower = 0
    for line in lines:
        parts = line['geometry']['coordinates']
        for part in [parts] if line['geometry']['type'] == 'LineString' else parts:
            columns, rows = to_grid(part, data, crs)
            read = between_nodes(columns, rows, values)
            off = np.abs(read - line['properties']['level'])
            wrong += int((off > 2e-3 * spread).sum())
            # Left of the way, a twentieth of a cell off the middle of each piece.
            dc, dr = np.diff(columns), np.diff(rows)
            length = np.hypot(dc, dr)
            long = length > 0.2
            mc, mr = (columns[1:] + columns[:-1]) / 2, (rows[1:] + rows[:-1]) / 2
            with np.errstate(invalid='ignore', divide='ignore'):
                left = between_nodes(mc + 0.05 * dr / length, mr - 0.05 * dc / length, values)
                right = between_nodes(mc - 0.05 * dr / length, mr + 0.05 * dc / length, values)
            higher += int((left > right)[long].sum())
            lower += int((left < right)[long].sum())
    if wrong:
        fault(name, f'{wrong} points do not lie at their level on the raster')
    if lower > 0.01 * (higher + lower):
        fault(name, f'{lower} of {higher + lower} pieces have lower ground to their left')


def areas_of(features_, crs):
    for feature in features_:
        shape = ogr.CreateGeometryFromJson(json.dumps(feature['geometry']))
        shape.Transform(crs['from_globe'])
        yield feature['properties'], shape


def burnt(shape, data):
    """The cells whose middle lies in a shape."""
    raster = gdal.GetDriverByName('MEM').Create('', data.RasterXSize, data.RasterYSize, 1, gdal.GDT_Byte)
    raster.SetGeoTransform(data.GetGeoTransform())
    raster.SetProjection(data.GetProjection())
    layer_source = ogr.GetDriverByName('Memory').CreateDataSource('')
    layer = layer_source.CreateLayer('', data.GetSpatialRef(), ogr.wkbPolygon)
    feature = ogr.Feature(layer.GetLayerDefn())
    feature.SetGeometry(shape)
    layer.CreateFeature(feature)
    gdal.RasterizeLayer(raster, [1], layer, burn_values=[1])
    return raster.GetRasterBand(1).ReadAsArray() == 1


def check_band_areas(name, data, values, crs):
    covered = np.zeros(values.shape, int)
    spread = np.nanmax(values) - np.nanmin(values)
    for said, shape in areas_of(features(name), crs):
        inside = burnt(shape, data)
        covered += inside
        low = -np.inf if said['from'] is None else said['from'] - 0.01 * spread
        high = np.inf if said['to'] is None else said['to'] + 0.01 * spread
        strays = int((inside & ~((values >= low) & (values <= high))).sum())
        if strays > 0.02 * inside.sum() + 2:
            fault(name, f"{strays} of {inside.sum()} cells of {said['label']} have other values")
    if (covered > 1).sum() > 0.005 * covered.size:
        fault(name, f'{(covered > 1).sum()} cells are covered twice')
    drawn = np.isfinite(values)
    # Bands reach from node to node: the middle of a cell with all its neighbours is inside.
    inner = drawn.copy()
    for step in ((a, b) for a in (-1, 0, 1) for b in (-1, 0, 1)):
        inner &= np.roll(drawn, step, (0, 1))
    inner[[0, -1], :] = inner[:, [0, -1]] = False
    bare = int((inner & (covered == 0)).sum())
    if bare > 0.005 * inner.sum():
        fault(name, f'{bare} of {inner.sum()} inner cells are in no band')


def check_class_areas(name, data, values, crs):
    painted = np.full(values.shape, np.nan)
    for said, shape in areas_of(features(name), crs):
        painted[burnt(shape, data)] = said['code']
    different = int((~((painted == values) | (np.isnan(painted) & np.isnan(values)))).sum())
    if different:
        fault(name, f'{different} cells have another class than the raster')


# --- what goes with them ------------------------------------------------------------------------
SE = '{http://www.opengis.net/se}'


def check_style(name):
    root = ElementTree.fromstring(content(name))
    if root.tag != '{http://www.opengis.net/sld}StyledLayerDescriptor' or root.get('version') != '1.1.0':
        fault(name, f'begins with {root.tag} {root.get("version")}')
    for ramp in root.iter(f'{SE}Interpolate'):
        data = [float(point.findtext(f'{SE}Data')) for point in ramp.iter(f'{SE}InterpolationPoint')]
        if data != sorted(set(data)):
            fault(name, f'its points do not rise: {data}')
    for mark in root.iter(f'{SE}WellKnownName'):
        if mark.text not in 'square circle triangle star cross x hexagon'.split():
            fault(name, f'its mark {mark.text} is unknown')


def check_waypoints(stations):
    name, ns = 'stations.gpx', '{http://www.topografix.com/GPX/1/1}'
    points = list(ElementTree.fromstring(content(name)).iter(f'{ns}wpt'))
    placed = [row for row in stations if row['longitude'] != '']
    if len(points) != len(placed):
        fault(name, f'{len(points)} waypoints of {len(placed)} stations')
    for row, point in zip(placed, points):
        said = (point.get('lon'), point.get('lat'), point.findtext(f'{ns}name'))
        if (float(said[0]), float(said[1])) != (float(row['longitude']), float(row['latitude'])) or said[2] != plain(row['station']):
            fault(name, f"{said}; stations.csv has {row['station']}")


def check_traverse(report, crs, stations):
    """The walk's table against its points and ways, its route and its track, as the contracts have it."""
    name, ns = 'traverse.csv', '{http://www.topografix.com/GPX/1/1}'
    header, rows = table(name)
    check_decimals(name, header, rows, [])
    check_places(name, rows, crs)
    kinds = [row['kind'] for row in rows]
    if kinds[0] != 'start' or kinds[-1] != 'end' or set(kinds[1:-1]) - {'new station', 'visit again'}:
        fault(name, f'has kinds {kinds}')
    for row in rows:
        if row['kind'] == 'visit again' and row['station'] not in [station['station'] for station in stations]:
            fault(name, f"visits {row['station']}, which is no station")
    clocks = [row[key] for row in rows for key in ('arrive', 'leave') if row[key]]
    if clocks != sorted(clocks) or not all(re.fullmatch('[012][0-9]:[0-5][0-9]', clock) for clock in clocks):
        fault(name, f'has times {clocks}')
    walked = sum(float(row['distance_m'] or 0) for row in rows)
    if abs(walked - report['traverse']['distance_m']) > 0.1 * len(rows):
        fault(name, f"{walked} m; report.json has {report['traverse']['distance_m']}")
    if not crs:
        return
    found = features('traverse.geojson')
    points = [f for f in found if f['properties']['kind'] != 'leg']
    legs = [f for f in found if f['properties']['kind'] == 'leg']
    root = ElementTree.fromstring(content('traverse.gpx'))
    route, track = list(root.iter(f'{ns}rtept')), list(root.iter(f'{ns}trkseg'))
    if not len(points) == len(route) == len(rows) == len(legs) + 1 == len(track) + 1:
        fault(name, f'{len(rows)} rows, {len(points)} points, {len(legs)} legs, {len(route)} route points, {len(track)} segments')
        return
    there = crs['from_globe']
    for row, point, stop in zip(rows, points, route):
        place = (float(row['longitude']), float(row['latitude']))
        if place != tuple(point['geometry']['coordinates']) or place != (float(stop.get('lon')), float(stop.get('lat'))):
            fault('traverse.gpx', f'{place} of the table stands elsewhere in the GeoJSON or here')
    for row, leg, segment in zip(rows[1:], legs, track):
        line = leg['geometry']['coordinates'] if leg['geometry'] else []
        said = float(row['distance_m'])
        ends = [(float(p.get('lon')), float(p.get('lat'))) for p in segment.iter(f'{ns}trkpt')]
        for file, places in (('traverse.geojson', line), ('traverse.gpx', ends)):
            flat = [there.TransformPoint(*place[:2])[:2] for place in places]
            metres = sum(math.dist(a, b) for a, b in zip(flat, flat[1:])) * crs['metres']
            if abs(metres - said) > 0.06 + 0.02 * len(places):
                fault(file, f'a way of {metres:.2f} m; the table has {said}')


def check_map_style(names):
    style = read_json('map-style.json')
    for source in style['sources'].values():
        if isinstance(source['data'], str) and unquote(source['data']).removeprefix('./') not in names:
            fault('map-style.json', f"names {source['data']}, which is not there")
    for layer in style['layers']:
        if 'source' in layer and layer['source'] not in style['sources']:
            fault('map-style.json', f"{layer['id']} has no source")


def check_inputs(report):
    """Each input whose path is found below the folders has the digest that it is said to have."""
    found = 0
    for entry in report['inputs']:
        paths = [path for folder in INPUTS for path in [os.path.join(folder, entry['file'])] if os.path.isfile(path)]
        for path in paths:
            with open(path, 'rb') as file:
                bytes_ = file.read()
            found += 1
            if hashlib.sha256(bytes_).hexdigest() != entry['sha256'] or len(bytes_) != entry['bytes']:
                fault('report.json', f'{path} has another digest or length')
    for folder in INPUTS:
        for at, _, names in os.walk(folder):
            for file in names:
                path = os.path.relpath(os.path.join(at, file), folder)
                if not any(entry['file'].endswith(path) for entry in report['inputs']):
                    fault('report.json', f'{path} was handed over and is not among the inputs')
    if INPUTS and found == 0:
        fault('report.json', 'no input was found to compare')


def main():
    names = sorted(unicodedata.normalize('NFC', name) for name in os.listdir(FOLDER))
    report = read_json('report.json')
    told = sorted(entry['file'] for entry in report['files'])
    if told != names:
        fault('report.json', f'files told and files there differ by {sorted(set(told) ^ set(names))}')
    for name in names:
        stem = name.split('.')[0]
        if not all(c in ' -_' or unicodedata.category(c)[0] in 'LMN' for c in stem) or len(stem.encode()) > 80:
            fault(name, 'is no name for a file')
    if len({name.casefold() for name in names}) != len(names):
        fault('names', 'two differ by case alone')
    indices = [index['name'] for index in report['indices']]
    scan_header, scans = table('scans.csv')
    header, stations = table('stations.csv')
    mineral_rows = table('minerals.csv')[1]
    problems = table('problems.csv')[1]
    for name, columns, rows in (('scans.csv', scan_header, scans), ('stations.csv', header, stations)):
        check_decimals(name, columns, rows, indices)
        check_words(name, rows)
    check_minerals(scans, mineral_rows)
    for count, rows in (('scans', scans), ('stations', stations), ('problems', problems)):
        if report['read'][count] != len(rows):
            fault('report.json', f"says {report['read'][count]} {count}; the table has {len(rows)}")
    if len({(row['scan'], row['file']) for row in scans}) != len(scans):
        fault('scans.csv', 'scan and file together are not unique')
    crs = open_crs(report['crs']['code'])
    check_places('stations.csv', stations, crs)
    check_places('scans.csv', [row for row in scans if row['station'] != ''], crs)
    if crs:
        check_stations(header, stations)
        check_waypoints(stations)
        check_map_style(names)
    elif any(name.endswith(('.geojson', '.gpx')) for name in names):
        fault('names', 'a local grid has GeoJSON or waypoints')
    for name in names:
        if name.endswith('.sld'):
            check_style(name)
        if name in ('structures.geojson', 'photos.geojson'):
            features(name)
    if 'traverse.csv' in names:
        check_traverse(report, crs, stations)
    check_surfaces(report, crs)
    check_inputs(report)
    print(json.dumps(faults[:200], ensure_ascii=False))


def check_minerals(scans, rows):
    by_scan = {}
    for row in rows:
        by_scan.setdefault(row['scan'], []).append(row)
    for scan, found in by_scan.items():
        ranks = [int(row['rank']) for row in found]
        shares = [float(row['share'] or 0) for row in found]
        if len({row['scan'] for row in scans}) == len(scans) and ranks != list(range(1, len(found) + 1)):
            fault('minerals.csv', f'{scan} has ranks {ranks}')
        if shares != sorted(shares, reverse=True) and ranks == sorted(ranks):
            fault('minerals.csv', f'{scan} has shares {shares}')
    first = {row['scan']: row['mineral'] for row in rows if row['rank'] == '1'}
    for row in scans:
        if row['mineral'] and first.get(row['scan']) != row['mineral']:
            fault('minerals.csv', f"{row['scan']} is {first.get(row['scan'])}; scans.csv has {row['mineral']}")


def check_surfaces(report, crs):
    for surface in report['surfaces']:
        if surface['failure'] is not None:
            if surface['files']:
                fault(surface['name'], 'failed, and has files')
            continue
        raster = next(name for name in surface['files'] if name.endswith('.tif'))
        data, values = check_raster(raster, surface, crs, report['crs']['code'])
        if not crs or not np.isfinite(values[0]).any():
            continue
        for name in surface['files']:
            if name.endswith('.contours.geojson'):
                check_contours(name, data, values[0], crs)
            elif name.endswith('.bands.geojson'):
                check_band_areas(name, data, values[0], crs)
            elif name.endswith('.classes.geojson'):
                check_class_areas(name, data, values[0], crs)


main()
