"""Who is served, by numpy and by DuckDB: what `cargo bench --bench coverage` is compared with.

    python3 coverage.py FOLDER DOCUMENT

The folder has heads.f64 (circumference, length, breadth, face width as doubles, head by head) and boxes.csv (of
`range windows`); the document has the statements for DuckDB. For each way a line: its name, wall seconds, and the heads
served by pads and model, all with tabs between. Reading the files doesn't count, all else does. Two ways with numpy:
every box over all heads; and heads sorted by length once, so that a box looks only at those between its ends.
"""

import csv
import sys
import time
from pathlib import Path

import numpy as np

FACTOR, SHARE = 1.03, 0.5
AXES = ["length", "breadth", "face_width"]


def room(heads):
    circumference, length, breadth, width = heads.T
    total = length + breadth
    relative = (length - breadth) / total
    h3 = 3.0 * relative * relative
    perimeter = np.pi / 2.0 * total * (1.0 + h3 / (10.0 + np.sqrt(4.0 - h3)))
    share = SHARE * ((circumference - FACTOR * perimeter) / np.pi)
    return length + share, breadth + share, width


def by_model(boxes):
    groups = {}
    for box in boxes:
        ends = [float(box[f"{axis}_{end}"]) for axis in AXES for end in ("from", "to")]
        groups.setdefault((box["pads"], box["model"]), []).append(ends)
    return groups


def counts(groups, fits, heads):
    """Heads by pads and model, and by pads alone, from a function that marks the heads of a model's boxes."""
    found, anybody = {}, {}
    for (pads, model), boxes in groups.items():
        mask = np.zeros(heads, dtype=bool)
        for box in boxes:
            fits(mask, *box)
        found[pads, model] = int(mask.sum())
        anybody[pads] = anybody.get(pads, False) | mask
    return found | {(pads, ""): int(mask.sum()) for pads, mask in anybody.items()}


def plain(heads, groups):
    x, y, z = room(heads)

    def fits(mask, a, b, c, d, e, f):
        mask |= (x >= a) & (x <= b) & (y >= c) & (y <= d) & (z >= e) & (z <= f)

    return counts(groups, fits, len(x))


def pruned(heads, groups):
    x, y, z = room(heads)
    order = np.argsort(x)
    x, y, z = x[order], y[order], z[order]

    def fits(mask, a, b, c, d, e, f):
        part = slice(np.searchsorted(x, a, "left"), np.searchsorted(x, b, "right"))
        mask[part] |= (y[part] >= c) & (y[part] <= d) & (z[part] >= e) & (z[part] <= f)

    return counts(groups, fits, len(x))


def database(heads, folder, statements):
    import duckdb

    base = duckdb.connect(config={"threads": 2})
    tables, rooms, fits, everybody, each, _ = statements
    base.execute(tables)
    circumference, length, breadth, width = (np.ascontiguousarray(column) for column in heads.T)
    measures = {"circumference": circumference, "length": length, "breadth": breadth, "face_width": width}
    base.register("came", {"id": np.arange(1, len(heads) + 1), **measures})
    base.execute("INSERT INTO heads SELECT * FROM came")
    base.execute(f"COPY boxes FROM '{folder / 'boxes.csv'}' (HEADER)")
    start = time.perf_counter()
    base.execute(rooms)
    base.execute(fits)
    found = {(pads, ""): served for pads, served, _ in base.execute(everybody).fetchall()}
    found |= {(pads, model): served for pads, model, served, _ in base.execute(each).fetchall()}
    return time.perf_counter() - start, found


def shown(name, seconds, found):
    places = [f"{pads}/{model}={heads}" for (pads, model), heads in found.items() if heads]
    print(name, seconds, *places, sep="\t", flush=True)


def main():
    folder, document = Path(sys.argv[1]), Path(sys.argv[2])
    heads = np.fromfile(folder / "heads.f64").reshape(-1, 4)
    with open(folder / "boxes.csv", encoding="utf-8", newline="") as file:
        groups = by_model(csv.DictReader(file))
    for name, way in [("numpy, every box over all heads", plain), ("numpy, heads sorted by length", pruned)]:
        start = time.perf_counter()
        found = way(heads, groups)
        shown(name, time.perf_counter() - start, found)
    try:
        text = document.read_text(encoding="utf-8")
        statements = [part.split("```")[0] for part in text.split("```sql\n")[1:]]
        shown("DuckDB, 2 threads", *database(heads, folder, statements))
    except ImportError:
        print("DuckDB is not there")


main()
