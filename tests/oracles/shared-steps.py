"""The normal hierarchical model with its scatter integrated over, for tests/check.

python3 tests/oracles/shared-steps.py > tests/check/shared-steps.json

Posterior of the next value by adaptive quadrature over the scatter (scipy.integrate.quad), with a
flat prior of the mean and a half-Cauchy prior of the scatter (Gelman 2006): the program weighs
fourteen scatters instead. The first set has the eight schools' effects and errors (Rubin 1981,
J. Educ. Stat. 6, 377; as in Gelman et al. 2013, table 5.2), a thousandth of them each.
"""
import json
import numpy as np
from scipy.integrate import quad

SCALE = 0.004
SETS = {
    "eight schools": (
        [0.028, 0.008, -0.003, 0.007, -0.001, 0.001, 0.018, 0.012],
        [0.015, 0.010, 0.016, 0.011, 0.009, 0.011, 0.010, 0.018],
    ),
    "one step": (
        [0.0302, 0.0291, 0.0299, 0.0330, 0.0296, 0.0301],
        [0.0004, 0.0010, 0.0003, 0.0030, 0.0006, 0.0005],
    ),
    "scattered": (
        [0.0302, 0.0391, 0.0249, 0.0330, 0.0206, 0.0351, 0.0288],
        [0.0004, 0.0010, 0.0003, 0.0030, 0.0006, 0.0005, 0.0009],
    ),
    "three": ([0.010, 0.012, 0.009], [0.001, 0.002, 0.001]),
}


def moments(lift, error):
    y, s = np.array(lift), np.array(error)

    def at(scatter):
        v = s**2 + scatter**2
        precision = np.sum(1 / v)
        mean = np.sum(y / v) / precision
        log = -0.5 * np.sum(np.log(v)) - 0.5 * np.log(precision) - 0.5 * np.sum((y - mean) ** 2 / v)
        return log, mean, 1 / precision + scatter**2

    top = max(at(t)[0] for t in np.geomspace(1e-6, 0.5, 4000))

    def integral(of):
        def density(u):  # over ln scatter, so that quad sees both ends
            scatter = np.exp(u)
            log, mean, variance = at(scatter)
            prior = 1 / (1 + (scatter / SCALE) ** 2)
            return np.exp(log - top) * prior * scatter * of(mean, variance)

        return quad(density, np.log(1e-7), np.log(0.1), limit=500, epsabs=0, epsrel=1e-10)[0]

    whole = integral(lambda mean, variance: 1.0)
    mean = integral(lambda m, v: m) / whole
    square = integral(lambda m, v: v + m**2) / whole
    return {"mean": mean, "deviation": float(np.sqrt(square - mean**2))}


print(
    json.dumps(
        {
            name: {"lift": lift, "error": error, **moments(lift, error)}
            for name, (lift, error) in SETS.items()
        },
        indent=2,
    )
)
