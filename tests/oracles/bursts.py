"""Bursts of scans by SciPy, for tests/places/bursts.test.ts.

    python3 tests/oracles/bursts.py > tests/places/bursts.json

A burst by its definition is a cluster of single linkage over the times alone: its height is its
longest gap, and its parent's height the shorter of the pauses around it. Distances are SciPy's
pdist. NumPy's generator makes the days; its seed is fixed.
"""

import json

import numpy as np
from scipy.cluster.hierarchy import fcluster, linkage, to_tree
from scipy.spatial.distance import pdist

GAP, NEAR, WIDEST, MOST, MOVE = 60, 6, 25, 30, 20


def spread(errors):
    stated = errors[~np.isnan(errors)]
    worst = stated.max() if len(stated) else 5
    return min(WIDEST, max(NEAR, 3 * worst))


def is_several(times, places):
    """Whether it falls into bursts of two or more, apart, at half its longest gap."""
    gaps = np.diff(times)
    if gaps.max() <= MOVE:
        return False
    labels = fcluster(linkage(times[:, None], "single"), gaps.max() / 2, "distance")
    inner = [np.diff(times[labels == k]).max(initial=0) for k in set(labels)]
    if gaps[gaps > gaps.max() / 2].min() <= 2 * max(inner):
        return False
    middles = [places[labels == k].mean(axis=0) for k in set(labels) if (labels == k).sum() > 1]
    return len(middles) > 1 and pdist(np.array(middles)).max() > NEAR


def bursts(times, places, errors):
    found = []

    def visit(node, pause):
        if node.is_leaf():
            return
        own = np.sort(node.pre_order())
        if node.dist <= GAP and len(own) <= MOST and pause > 2 * node.dist:
            fits = pdist(places[own]).max() <= spread(errors[own])
            if fits and not is_several(times[own], places[own]):
                found.append([int(own[0]), int(own[-1]) + 1])
                return
        visit(node.left, node.dist)
        visit(node.right, node.dist)

    if len(times) > 1:
        visit(to_tree(linkage(times[:, None], "single")), np.inf)
    return sorted(found)


def day(rng):
    """A day of stretches: bursts of several, single scans, a walk of even gaps, rapid bursts."""
    times, places, errors = [], [], []
    now, here = 0.0, np.zeros(2)
    error = rng.choice([np.nan, 1, 3, 5, 9])
    for _ in range(rng.integers(3, 9)):
        kind = rng.choice(["spot", "spot", "single", "walk", "rapid", "still", "double"])
        now += rng.choice([rng.uniform(61, 900), rng.uniform(15, 90)])
        here = here + rng.normal(size=2) * rng.choice([2, 8, 60])
        count = {"spot": rng.integers(2, 6), "single": 1, "walk": rng.integers(4, 25),
                 "rapid": rng.integers(2, 5), "still": rng.integers(25, 40), "double": 6}[kind]
        wander = rng.choice([0.5, 2, 5])
        wander = 0.5 if kind == "double" else wander
        for i in range(count):
            if kind == "double" and i == 3:
                # On to a second spot some metres off.
                now += rng.uniform(8, 55)
                angle = rng.uniform(0, 2 * np.pi)
                here = here + rng.uniform(3, 13) * np.array([np.cos(angle), np.sin(angle)])
            elif i:
                now += {"spot": rng.uniform(5, 35), "walk": rng.uniform(10, 20),
                        "rapid": rng.uniform(2, 8), "still": rng.uniform(3, 6),
                        "double": rng.uniform(3, 6)}.get(kind, 0)
            if kind == "walk":
                here = here + np.array([rng.uniform(2, 5), rng.uniform(-1, 1)])
            times.append(round(now))
            places.append(np.round(here + rng.normal(size=2) * (0.3 if kind == "walk" else wander), 2))
            errors.append(error)
    return np.array(times, float), np.array(places), np.array(errors)


rng = np.random.default_rng(20240507)
days = []
for _ in range(80):
    times, places, errors = day(rng)
    days.append({
        "seconds": [int(time) for time in times],
        "east": places[:, 0].tolist(),
        "north": places[:, 1].tolist(),
        "error": None if np.isnan(errors[0]) else errors[0],
        "bursts": sum(bursts(times, places, errors), []),
    })
print(json.dumps(days, separators=(",", ":")))
