"""Zips one file with Python's zipfile, deflated at level 6.

layers.py FILE  prints {"seconds": the median of three}
"""

import io
import json
import pathlib
import statistics
import sys
import time
import zipfile


def zip_once(name, content):
    start = time.perf_counter()
    with zipfile.ZipFile(io.BytesIO(), "w", zipfile.ZIP_DEFLATED, compresslevel=6) as archive:
        archive.writestr(name, content)
    return time.perf_counter() - start


def main():
    path = pathlib.Path(sys.argv[1])
    content = path.read_bytes()
    print(json.dumps({"seconds": statistics.median(zip_once(path.name, content) for _ in range(3))}))


main()
