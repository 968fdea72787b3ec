"""Makes region.csv with region.edp (FreeFem++ must be installed).

    python3 region.py                                   writes region.csv (a few minutes)
    python3 region.py --check some/gap-inertance.csv    compares with an earlier table of straight cavities
"""
import csv
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).parent
GRADING = 0.12  # element size over distance to the nearest re-entrant corner

HEADER = """\
# Static inertance of the gap region between two long cylinders, less the plane-wave part of both cylinders, over density.
# Made by region.py with region.edp: axisymmetric P2 finite elements (FreeFem++), mesh graded to 2e-6 mm at the
# re-entrant corners, hard walls, energy of unit flow. Each value is the mean of a bound from below (potential) and one
# from above (stream function); the widest bracket of all rows is {width:.1e} of the value, the estimated error is half of that.
# Invented geometries. Cavity: straight cone between its two radii. Gap 0: one direct step. Lengths mm, inertance/density 1/mm.
"""
COLUMNS = ["shank_exit_radius_mm", "cavity_radius_at_shank_mm", "cavity_radius_at_leadpipe_mm", "leadpipe_radius_mm",
           "gap_mm", "inertance_over_density_per_mm"]


def tapered(a1, cavity, a3, gap, taper=0.0):
    """taper = change of diameter per length, positive when the cavity narrows toward the leadpipe."""
    return a1, cavity, round(cavity - taper * gap / 2, 6), a3, gap


def step(a1, a3):
    return a1, max(a1, a3), max(a1, a3), a3, 0


ROWS = [
    # straight
    tapered(4.1, 4.75, 4.6, 0.1),
    tapered(4.1, 4.75, 4.6, 1),
    tapered(4.1, 4.75, 4.6, 12),
    tapered(4.5, 5.1, 4.2, 0.05),
    tapered(4.5, 5.1, 4.2, 2.54),
    # thin annulus: the cavity 0.2 mm wider than the wider bore
    tapered(4.3, 4.6, 4.4, 0.05),
    tapered(4.3, 4.5, 4.3, 0.5),
    tapered(4.3, 4.5, 4.3, 6),
    # the usual receiver taper, 0.05
    tapered(4.25, 4.9, 4.4, 0.05, 0.05),
    tapered(4.25, 4.9, 4.4, 0.1, 0.05),
    tapered(4.25, 4.9, 4.4, 0.5, 0.05),
    tapered(4.25, 4.9635, 4.4, 2.54, 0.05),
    tapered(4.25, 5.05, 4.4, 6, 0.05),
    tapered(4.25, 5.2, 4.4, 12, 0.05),
    tapered(4.6, 5.2, 4.25, 1, 0.05),
    tapered(4.6, 5.2, 4.25, 6, 0.05),
    # the cavity narrows to exactly the leadpipe, and to less than it
    tapered(4.2, 4.8, 4.5, 12, 0.05),
    tapered(4.2, 4.8, 4.75, 6, 0.05),
    # steeper, and widening
    tapered(4.25, 5.1, 4.4, 2.54, 0.1),
    tapered(4.25, 5.3, 4.4, 12, 0.1),
    tapered(4.25, 4.9, 4.4, 2.54, -0.05),
    tapered(4.25, 4.9, 4.4, 6, -0.1),
    # tuba-like
    tapered(6.9, 7.6, 7.3, 2.54, 0.05),
    tapered(6.9, 7.75, 7.0, 12, 0.05),
    # one direct step
    step(4.25, 4.4),
    step(4.25, 5.5),
    step(4.6, 4.2),
    step(3, 9),
]


def bracket(row, grading=GRADING):
    names = ["-a1", "-rs", "-rl", "-a3", "-gap"]
    options = [text for name, value in zip(names, row) for text in (name, repr(value))]
    run = subprocess.run(["FreeFem++", "-nw", "-v", "0", "region.edp", *options, "-grading", str(grading)],
                         cwd=HERE, capture_output=True, text=True, check=True)
    line = next(line for line in run.stdout.splitlines() if line.startswith("RESULT"))
    below, above = map(float, line.split()[1:3])
    return below, above


def brackets(rows):
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(bracket, rows))


def check(table):
    lines = [line for line in open(table) if not line.startswith("#")]
    old = [[float(value) for value in row.values()] for row in csv.DictReader(lines)]
    rows = [(a1, cavity, cavity, a3, gap) for a1, cavity, a3, gap, _ in old]
    for row, (*_, value), (below, above) in zip(rows, old, brackets(rows)):
        mean = (below + above) / 2
        print(f"{row}: {value} there, {mean:.9g} here, {100 * (value / mean - 1):+.4f} %; bracket {above / below - 1:.1e}")


def make():
    found = brackets(ROWS)
    width = max((above - below) / above for below, above in found)
    with open(HERE / "region.csv", "w") as out:
        out.write(HEADER.format(width=width))
        out.write(",".join(COLUMNS) + "\n")
        for row, (below, above) in zip(ROWS, found):
            out.write(",".join(f"{value:g}" for value in row) + f",{(below + above) / 2:.8g}\n")
            print(row, below, above, f"{above / below - 1:.1e}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--check"]:
        check(sys.argv[2])
    else:
        make()
