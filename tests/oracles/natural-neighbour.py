"""Sibson's natural neighbour weights as areas of Voronoi cells, for tests/surfaces.

python3 tests/oracles/natural-neighbour.py > tests/surfaces/natural-neighbour.json

For each place the cells of scipy.spatial.Voronoi are taken with and without it, cut by a wide
frame of mirrored points, and each station's loss of area is its weight (Sibson 1981). It shares no
step with the program, which adds up circumcentres of Delaunay triangles. Places lie inside the
hull; the losses there are bounded, so that a far frame does not touch them.
"""
import json
import numpy as np
from scipy.spatial import ConvexHull, Voronoi


def areas(points):
    frame = [(x, y) for x in (-60, 0.5, 61) for y in (-60, 0.5, 61) if (x, y) != (0.5, 0.5)]
    cells = Voronoi(np.vstack([points, frame]))
    found = []
    for i in range(len(points)):
        region = cells.regions[cells.point_region[i]]
        assert -1 not in region
        found.append(ConvexHull(cells.vertices[region]).volume)
    return np.array(found)


random = np.random.default_rng(20)
stations = random.random((40, 2))
value = np.sin(5 * stations[:, 0]) + np.cos(4 * stations[:, 1])
hull = ConvexHull(stations)
targets = []
while len(targets) < 30:
    place = random.random(2)
    # Well inside, so that no loss reaches the frame.
    if np.all(hull.equations @ np.append(place, 1) < -0.02):
        targets.append(place)
before = areas(stations)
estimate = []
for place in targets:
    weights = np.maximum(0, before - areas(np.vstack([stations, place]))[:-1])
    estimate.append(float(weights @ value / weights.sum()))
targets = np.array(targets)
print(
    json.dumps(
        {
            "source": "scipy.spatial.Voronoi, SciPy 1.10",
            "stations": {"x": stations[:, 0].tolist(), "y": stations[:, 1].tolist(), "value": value.tolist()},
            "targets": {"x": targets[:, 0].tolist(), "y": targets[:, 1].tolist()},
            "estimate": estimate,
        }
    )
)
