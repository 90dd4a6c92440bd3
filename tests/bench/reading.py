"""Reads two-column scans with numpy.loadtxt, which is told delimiter and heading.

reading.py FOLDER  prints {"seconds": …, "processor": …}, medians of three passes over all files
after one that warms up: paths known, each file to an array of float64.
"""

import json
import pathlib
import statistics
import sys
import time

import numpy as np


def read_all(paths):
    """Wall seconds and processor seconds of one pass."""
    start, used = time.perf_counter(), time.process_time()
    for path in paths:
        scan = np.loadtxt(path, delimiter="\t", skiprows=1)
        assert scan.shape[1] == 2
    return time.perf_counter() - start, time.process_time() - used


def main():
    paths = sorted(pathlib.Path(sys.argv[1]).rglob("*.txt"))
    read_all(paths)
    seconds, processor = zip(*(read_all(paths) for _ in range(3)))
    answer = {"seconds": statistics.median(seconds), "processor": statistics.median(processor)}
    print(json.dumps(answer))


main()
