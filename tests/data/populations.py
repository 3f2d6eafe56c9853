"""The survey populations and their posteriors, for the scripts beside this file.

It shares nothing with the program: one joint normal per component, conditioned in one step with the matrix formula,
where the program takes the readings one at a time. Numbers: ANSUR II public data, 2012 survey, NATICK/TR-15/007.
"""

import numpy as np
from scipy.stats import chi2, multivariate_normal

MEASURES = ["circumference", "length", "breadth", "face-width"]

MEN = (
    np.array([574.3729, 199.5047, 154.3302, 142.6222]),
    np.array(
        [
            [257.5551, 92.7978, 49.1670, 45.4202],
            [92.7978, 49.3439, 6.8316, 8.0956],
            [49.1670, 6.8316, 30.6015, 22.4497],
            [45.4202, 8.0956, 22.4497, 38.6723],
        ]
    ),
)

WOMEN = (
    np.array([561.1198, 189.8197, 147.7689, 133.7654]),
    np.array(
        [
            [374.8461, 109.2241, 49.6776, 41.5798],
            [109.2241, 55.4899, 8.5200, 6.7154],
            [49.6776, 8.5200, 26.9556, 17.5780],
            [41.5798, 6.7154, 17.5780, 30.9505],
        ]
    ),
)

POPULATIONS = {"men": [(1.0, *MEN)], "women": [(1.0, *WOMEN)], "adults": [(0.5, *MEN), (0.5, *WOMEN)]}


def posterior(population, readings):
    """Weight, mean and covariance of each component, given readings of the form (measure, value, sd)."""
    index = [MEASURES.index(measure) for measure, _, _ in readings]
    values = np.array([value for _, value, _ in readings])
    noise = np.diag([sd**2 for _, _, sd in readings])
    parts = []
    for share, mean, covariance in POPULATIONS[population]:
        if not readings:
            parts.append((share, mean, covariance))
            continue
        seen = covariance[np.ix_(index, index)] + noise
        gain = covariance[:, index] @ np.linalg.inv(seen)
        density = multivariate_normal.pdf(values, mean[index], seen)
        parts.append((share * density, mean + gain @ (values - mean[index]), covariance - gain @ covariance[index, :]))
    total = sum(weight for weight, _, _ in parts)
    return [(weight / total, mean, covariance) for weight, mean, covariance in parts]


def rarity(population, readings):
    """Chi-squared probability of the readings' Mahalanobis distance from the nearest component."""
    index = [MEASURES.index(measure) for measure, _, _ in readings]
    values = np.array([value for _, value, _ in readings])
    noise = np.diag([sd**2 for _, _, sd in readings])
    distances = []
    for _, mean, covariance in POPULATIONS[population]:
        away = values - mean[index]
        distances.append(away @ np.linalg.inv(covariance[np.ix_(index, index)] + noise) @ away)
    return chi2.cdf(min(distances), len(readings)) if readings else 0.0
