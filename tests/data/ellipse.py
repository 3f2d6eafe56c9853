"""Writes ellipse.json: perimeters of ellipses by the complete elliptic integral of the second kind.

Source: scipy.special.ellipe (a general library; scipy 1.17). Axes are full axes; the first is 190 in all rows of the
sweep over ratios. The single pairs are axes for which rounding can keep an iteration from ever coming to rest.
Run: python ellipse.py > ellipse.json
"""

import json

from scipy.special import ellipe

LENGTH = 190.0


def perimeter(one, two):
    long, short = max(one, two), min(one, two)
    return 2 * long * float(ellipe(1 - (short / long) ** 2))


ratios = [round(0.3 + 0.05 * k, 2) for k in range(55)]
rows = [{"ratio": r, "perimeter": perimeter(LENGTH, LENGTH * r)} for r in ratios]
PAIRS = [(165.0, 120.0), (160.0, 121.1), (161.6, 120.2), (361.0, 190.0)]
pairs = [{"axes": pair, "perimeter": perimeter(*pair)} for pair in PAIRS]
source = "scipy.special.ellipe; made by ellipse.py"
print(json.dumps({"source": source, "length": LENGTH, "rows": rows, "pairs": pairs}, indent=1))
