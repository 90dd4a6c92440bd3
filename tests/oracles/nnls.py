"""Makes tests/minerals/nnls.csv: solutions of random non-negative least-squares problems by
scipy.optimize.nnls. The problems themselves are not stored: both sides draw them from the same
32-bit linear congruential generator (Numerical Recipes' constants), seeded by the problem's
number, so the fixture holds the solutions alone: a row a problem, the residual first, then x.

    python3 tests/oracles/nnls.py > tests/minerals/nnls.csv
"""
import numpy as np
from scipy.optimize import nnls


def draws(seed):
    state = seed & 0xFFFFFFFF
    while True:
        state = (1664525 * state + 1013904223) & 0xFFFFFFFF
        yield state / 2**32


def problem(seed):
    r = draws(seed * 7919 + 1)
    rows = 4 + int(next(r) * 30)
    columns = 1 + int(next(r) * min(12, rows - 1))
    kind = seed % 4
    a = np.array([[next(r) for _ in range(rows)] for _ in range(columns)]).T
    if kind != 0:  # 0: all positive, as absorptions are, and so nearly parallel
        a = a - 0.5
    b = np.array([next(r) for _ in range(rows)])
    if kind == 2:
        b = b - 0.5
    if kind == 3:  # an exact non-negative mixture
        b = a @ np.array([max(0.0, next(r) - 0.4) for _ in range(columns)])
    return a, b


for seed in range(1000):
    a, b = problem(seed)
    x, residual = nnls(a, b)
    print(",".join(f"{v:.10g}" for v in [residual, *x]))
