"""Writes posteriors.json: weights, means, sds, shape index and rarity for many sets of readings.

The posterior comes from the matrix formula in populations.py; the moments of the shape index 100 B / L from
Gauss-Hermite quadrature over length and breadth (numpy.polynomial, a general library), 40 points on each axis.
Run: python posteriors.py > posteriors.json
"""

import json

import numpy as np
from populations import MEASURES, posterior, rarity
from scipy.stats import norm

C, L, B, W = MEASURES
CASES = [
    # (population, readings, shape by eye as (index of the word, sd, indices of the other words) or None)
    ("men", [], None),
    ("women", [], None),
    ("adults", [], None),
    ("men", [(C, 575.0, 3.0)], None),
    ("adults", [(C, 575.0, 3.0)], None),
    ("adults", [(C, 540.0, 7.0)], None),
    ("adults", [(L, 183.0, 4.0)], None),
    ("adults", [(W, 145.0, 4.0)], None),
    ("women", [(C, 561.0, 3.0), (B, 151.0, 1.5)], None),
    ("adults", [(C, 600.0, 3.0), (B, 158.0, 1.5)], None),
    ("adults", [(C, 568.0, 3.0), (L, 191.0, 1.5)], None),
    ("adults", [(C, 568.0, 3.0), (L, 191.0, 1.5), (B, 150.0, 1.5)], None),
    ("adults", [(C, 582.0, 3.0), (L, 201.0, 1.5), (B, 149.0, 1.5), (W, 139.0, 1.5)], None),
    ("men", [(C, 575.0, 0.0), (B, 150.0, 0.0)], None),
    ("adults", [(C, 575.0, 3.0)], (82.5, 3.0, (74.5, 78.0))),
    ("men", [(C, 600.0, 7.0)], (74.5, 3.0, (78.0, 82.5))),
    # A reading can make the shape index less certain: a small head (the ratio of small numbers spreads more) ...
    ("men", [(C, 530.0, 3.0)], None),
    # ... and a face width that makes a sure man an even bet between man and woman.
    ("adults", [(C, 608.6, 3.0), (B, 163.9, 1.5)], None),
    ("adults", [(C, 608.6, 3.0), (B, 163.9, 1.5), (W, 137.3, 1.5)], None),
]


def index_moments(parts, by_eye):
    x, w = np.polynomial.hermite_e.hermegauss(40)
    first, second = np.meshgrid(x, x)
    weights = np.outer(w, w) / w.sum() ** 2
    total, one, two = 0.0, 0.0, 0.0
    for weight, mean, covariance in parts:
        a = np.sqrt(covariance[1, 1])
        b = covariance[1, 2] / a
        c = np.sqrt(max(covariance[2, 2] - b * b, 0.0))
        index = 100 * (mean[2] + b * second + c * first) / (mean[1] + a * second)
        mass = weight * weights
        if by_eye:
            said, sd, others = by_eye
            density = [norm.pdf(index, word, sd) for word in (said, *others)]
            mass = mass * density[0] / sum(density)
        total, one, two = total + mass.sum(), one + (mass * index).sum(), two + (mass * index**2).sum()
    return one / total, np.sqrt(two / total - (one / total) ** 2)


def case(population, readings, by_eye):
    parts = posterior(population, readings)
    mean, sd = index_moments(parts, by_eye)
    return {
        "population": population,
        "readings": [{"measure": m, "value_mm": v, "sd_mm": s} for m, v, s in readings],
        "by_eye": by_eye and {"mean": by_eye[0], "sd": by_eye[1], "others": by_eye[2]},
        "weights": [round(float(weight), 10) for weight, _, _ in parts],
        "means_mm": [[round(float(x), 8) for x in centre] for _, centre, _ in parts],
        "sds_mm": [[round(float(x), 8) for x in np.sqrt(np.maximum(np.diag(cov), 0.0))] for _, _, cov in parts],
        "index_mean": round(float(mean), 6),
        "index_sd": round(float(sd), 6),
        "rarity": round(float(rarity(population, readings)), 10),
    }


source = "matrix formula and Gauss-Hermite quadrature with numpy and scipy; made by posteriors.py"
print(json.dumps({"source": source, "order": MEASURES, "cases": [case(*c) for c in CASES]}, indent=1))
