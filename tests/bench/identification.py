"""The published comparison of scans with references, in numpy and scipy, on one thread.

identification.py FOLDER  prints {"scans_per_second": ..., "named": ...}

For each scan:
1. over every diagnostic range, the scan's upper convex hull is removed (one range is done once,
   however many references share it) and correlated with the references' continuum-removed
   reflectance, all references of the range in one matrix product; goodness is the squared
   correlation where positive, weighed by the reference feature's area
   (Clark et al. 1990, J. Geophys. Res. 95, 12653; Clark et al. 2003, 108, 5131);
2. the best reference of each of the 30 best minerals makes the short list;
3. scipy.optimize.nnls fits the short list to the logarithm of continuum-removed reflectance
   over 1300 to 2450 nm, every fifth channel (Lawson and Hanson 1974), and the four largest
   parts are fitted once more alone.

References are made ready before the clock starts, as ours are.
"""

import json
import pathlib
import sys
import time

import numpy as np
from scipy.optimize import nnls

SHORT_LIST = 30
MOST = 4
MIXING = (1300.0, 2450.0)
MIXING_STEP = 5
WHOLE = [[1300.0, 2450.0]]


def upper_hull(x, y):
    """Upper convex hull of points with ascending x, at each x (Andrew 1979)."""
    xs, ys = x.tolist(), y.tolist()
    kept = []
    for i in range(len(xs)):
        while len(kept) > 1:
            a, b = kept[-2], kept[-1]
            if (ys[b] - ys[a]) * (xs[i] - xs[a]) > (ys[i] - ys[a]) * (xs[b] - xs[a]):
                break
            kept.pop()
        kept.append(i)
    return np.interp(x, x[kept], y[kept])


def removed(x, y):
    return y / upper_hull(x, y)


class Comparison:
    def __init__(self, axis, references, minerals, diagnostic):
        self.axis = axis
        self.minerals = minerals
        by_range = {}
        for number, ranges in enumerate(diagnostic):
            for low, high in ranges or WHOLE:
                by_range.setdefault((low, high), []).append(number)
        self.ranges = []
        for (low, high), members in by_range.items():
            part = slice(*np.searchsorted(axis, [low, high + 1e-9]))
            if part.stop - part.start < 5:
                continue
            shapes = np.array([removed(axis[part], references[n][part]) for n in members])
            area = (1 - shapes).sum(axis=1)
            centred = shapes - shapes.mean(axis=1, keepdims=True)
            unit = centred / (np.linalg.norm(centred, axis=1, keepdims=True) + 1e-20)
            self.ranges.append((part, np.array(members), unit, area))
        self.mixing = slice(*np.searchsorted(axis, MIXING), MIXING_STEP)
        x = axis[self.mixing]
        self.logs = np.array([np.log(removed(x, r[self.mixing])) for r in references]).T

    def identify(self, scan):
        scan = np.maximum(scan, 1e-3)
        weighted = np.zeros(len(self.minerals))
        total = np.full(len(self.minerals), 1e-20)
        for part, members, unit, area in self.ranges:
            shape = removed(self.axis[part], scan[part])
            shape = shape - shape.mean()
            correlation = unit @ shape / (np.linalg.norm(shape) + 1e-20)
            weighted[members] += area * np.maximum(correlation, 0) ** 2
            total[members] += area
        short = []
        seen = set()
        for number in np.argsort(-weighted / total):
            if self.minerals[number] in seen:
                continue
            seen.add(self.minerals[number])
            short.append(number)
            if len(short) == SHORT_LIST:
                break
        target = np.log(removed(self.axis[self.mixing], scan[self.mixing]))
        amounts, _ = nnls(self.logs[:, short], target)
        main = [short[i] for i in np.argsort(-amounts)[:MOST] if amounts[i] > 0]
        if not main:
            return []
        nnls(self.logs[:, main], target)
        return [self.minerals[number] for number in main]


def main():
    folder = pathlib.Path(sys.argv[1])
    about = json.loads((folder / "about.json").read_text())
    axis = about["first"] + np.arange(about["channels"], dtype=float)
    shape = (-1, about["channels"])
    references = np.fromfile(folder / "references.f64").reshape(shape)
    scans = np.fromfile(folder / "scans.f32", dtype=np.float32).astype(float).reshape(shape)
    comparison = Comparison(axis, references, about["minerals"], about["diagnostic"])
    comparison.identify(scans[0])
    start = time.perf_counter()
    named = sum(1 for scan in scans if comparison.identify(scan))
    seconds = time.perf_counter() - start
    print(json.dumps({"scans_per_second": len(scans) / seconds, "named": named}))


main()
