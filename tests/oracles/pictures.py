"""Small pictures with EXIF, written by Pillow and ExifTool and read back by ExifTool.

    python3 tests/oracles/pictures.py > tests/readers/pictures.json

Needs Pillow 12 and ExifTool 12 (Debian: libimage-exiftool-perl). The pictures are invented: a ramp
of grey, and a place and a time that mean nothing.
"""

import base64
import io
import json
import os
import subprocess
import tempfile

from PIL import Image

KEPT = ["DateTimeOriginal", "OffsetTimeOriginal", "Orientation", "GPSLatitude", "GPSLongitude",
        "GPSImgDirection", "GPSImgDirectionRef", "GPSHPositioningError", "GPSDateTime",
        "ImageWidth", "ImageHeight", "ExifByteOrder"]
SOUTH_WEST = ["-DateTimeOriginal=2024:05:07 16:05:12", "-OffsetTimeOriginal=-04:00", "-Orientation#=6",
              "-GPSLatitude=24.903172", "-GPSLatitudeRef=S", "-GPSLongitude=69.187654",
              "-GPSLongitudeRef=W", "-GPSImgDirection=223.5", "-GPSImgDirectionRef=M",
              "-GPSHPositioningError=4.7", "-GPSDateStamp=2024:05:07", "-GPSTimeStamp=20:05:10"]
NORTH_EAST = ["-DateTimeOriginal=2024:12:31 23:59:59", "-Orientation#=1", "-GPSLatitude=61.5",
              "-GPSLatitudeRef=N", "-GPSLongitude=178.25", "-GPSLongitudeRef=E",
              "-GPSImgDirection=0.25", "-GPSImgDirectionRef=T"]
CASES = [
    ("turned.jpg", "JPEG", (64, 48), "II", SOUTH_WEST, {}),
    ("plain.jpg", "JPEG", (40, 30), "MM", NORTH_EAST, {"progressive": True}),
    ("bare.jpg", "JPEG", (8, 5), "MM", [], {}),
    ("stone.png", "PNG", (33, 21), "MM", SOUTH_WEST, {}),
    ("lossy.webp", "WEBP", (50, 37), "II", NORTH_EAST, {}),
    ("exact.webp", "WEBP", (51, 38), "MM", [], {"lossless": True}),
    ("lossy-bare.webp", "WEBP", (52, 39), "MM", [], {}),
]


def made(folder, name, kind, size, order, tags, options):
    picture = Image.new("RGB", size)
    picture.putdata([(x * 3 % 256, y * 5 % 256, 128) for y in range(size[1]) for x in range(size[0])])
    buffer = io.BytesIO()
    picture.save(buffer, kind, **options)
    path = os.path.join(folder, name)
    with open(path, "wb") as file:
        file.write(buffer.getvalue())
    if tags:
        subprocess.run(["exiftool", "-q", "-overwrite_original", "-api", f"ByteOrder={order}", *tags, path],
                       check=True)
    said = json.loads(subprocess.run(["exiftool", "-n", "-json", path], check=True,
                                     capture_output=True, text=True).stdout)[0]
    with open(path, "rb") as file:
        base = base64.b64encode(file.read()).decode()
    return {"name": name, "said": {key: said[key] for key in KEPT if key in said}, "base64": base}


with tempfile.TemporaryDirectory() as folder:
    print(json.dumps([made(folder, *case) for case in CASES], indent=1))
