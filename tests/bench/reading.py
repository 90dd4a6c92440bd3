"""Reads two-column scans with numpy.loadtxt, which is told delimiter and heading.

reading.py FOLDER  prints {"seconds": the median of three passes over all files}
"""

import json
import pathlib
import statistics
import sys
import time

import numpy as np


def read_all(paths):
    start = time.perf_counter()
    for path in paths:
        scan = np.loadtxt(path, delimiter="\t", skiprows=1)
        assert scan.shape[1] == 2
    return time.perf_counter() - start


def main():
    paths = sorted(pathlib.Path(sys.argv[1]).rglob("*.txt"))
    read_all(paths)
    print(json.dumps({"seconds": statistics.median(read_all(paths) for _ in range(3))}))


main()
