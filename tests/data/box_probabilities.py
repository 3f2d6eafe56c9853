"""Writes box_probabilities.json: the probability of boxes under priors and posteriors.

Source: scipy.stats.multivariate_normal.cdf with lower_limit (a general library; scipy 1.17, numpy 2.4).
Run: python box_probabilities.py > box_probabilities.json
"""

import json

import numpy as np
from populations import MEASURES, posterior
from scipy.stats import multivariate_normal

TAPE = ("circumference", 580.0, 3.0)
CALIPER = ("breadth", 152.0, 1.5)
CASES = [(population, readings) for population in ("men", "adults") for readings in ([], [TAPE], [TAPE, CALIPER])]
BOXES_PER_CASE = 8


def probability(parts, lower, upper, seed):
    return sum(
        weight
        * multivariate_normal(mean, covariance, maxpts=2_000_000, abseps=1e-7, releps=0, seed=seed).cdf(
            upper, lower_limit=lower
        )
        for weight, mean, covariance in parts
    )


def boxes(parts, rng):
    """Boxes that hold between 5 % and 90 % of the heads, with edges on tenths of a millimetre."""
    mean = sum(weight * centre for weight, centre, _ in parts)
    spread = np.sqrt(sum(weight * (np.diag(cov) + (centre - mean) ** 2) for weight, centre, cov in parts))
    found = []
    while len(found) < BOXES_PER_CASE:
        lower = np.round(mean + spread * rng.uniform(-2.5, 0.0, 4), 1)
        upper = np.round(mean + spread * rng.uniform(0.0, 2.5, 4), 1)
        p = probability(parts, lower, upper, 1)
        if 0.05 <= p <= 0.90:
            # The integrator is itself randomised: two seeds must agree far beyond what the test asks for.
            assert abs(p - probability(parts, lower, upper, 2)) < 5e-6, (lower, upper)
            found.append({"lower_mm": lower.tolist(), "upper_mm": upper.tolist(), "probability": round(float(p), 6)})
    return found


rng = np.random.default_rng(20120401)
cases = [
    {
        "population": population,
        "readings": [{"measure": m, "value_mm": v, "sd_mm": s} for m, v, s in readings],
        "boxes": boxes(posterior(population, readings), rng),
    }
    for population, readings in CASES
]
source = "scipy.stats.multivariate_normal.cdf with lower_limit; made by box_probabilities.py"
print(json.dumps({"source": source, "order": MEASURES, "cases": cases}, indent=1))
