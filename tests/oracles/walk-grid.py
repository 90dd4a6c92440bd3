"""Quickest walking times over a small hill, for tests/traverse.

python3 tests/oracles/walk-grid.py > tests/traverse/walk-grid.json

The graph is built here from the rules (sixteen steps, Tobler's speed times a pace, no slope beyond
a limit, no knight's move past a closed node) and solved by scipy.sparse.csgraph.dijkstra.
"""
import json
import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

columns, rows, cell, pace, steepest = 24, 20, 25.0, 0.6, 0.45
random = np.random.default_rng(9)
y, x = np.mgrid[0:rows, 0:columns]
height = 90 * np.exp(-((x - 14) ** 2 + (y - 9) ** 2) / 30) + 2 * random.random((rows, columns))
height[12:16, 3:8] = np.nan
steps = [
    (dx, dy)
    for dx in range(-2, 3)
    for dy in range(-2, 3)
    if (dx, dy) != (0, 0) and (max(abs(dx), abs(dy)) == 1 or abs(dx * dy) == 2)
]
assert len(steps) == 16
come, go, cost = [], [], []
for r in range(rows):
    for c in range(columns):
        if np.isnan(height[r, c]):
            continue
        for dx, dy in steps:
            r2, c2 = r + dy, c + dx
            if not (0 <= r2 < rows and 0 <= c2 < columns) or np.isnan(height[r2, c2]):
                continue
            if abs(dx * dy) == 2:
                straight = height[r + (dy // 2 if abs(dy) == 2 else 0), c + (dx // 2 if abs(dx) == 2 else 0)]
                aslant = height[r + np.sign(dy), c + np.sign(dx)]
                if np.isnan(straight) or np.isnan(aslant):
                    continue
            run = cell * np.hypot(dx, dy)
            slope = (height[r2, c2] - height[r, c]) / run
            if abs(slope) > steepest:
                continue
            speed = 6 * np.exp(-3.5 * abs(slope + 0.05)) / 3.6 * pace
            come.append(r * columns + c)
            go.append(r2 * columns + c2)
            cost.append(run / speed)
graph = csr_matrix((cost, (come, go)), shape=(rows * columns, rows * columns))
source = 2 * columns + 3
seconds = dijkstra(graph, indices=source)
print(
    json.dumps(
        {
            "columns": columns,
            "rows": rows,
            "cell": cell,
            "pace": pace,
            "steepest": steepest,
            "source": source,
            "elevation": [None if np.isnan(h) else float(h) for h in height.ravel()],
            "seconds": [None if np.isinf(t) else float(t) for t in seconds],
        }
    )
)
