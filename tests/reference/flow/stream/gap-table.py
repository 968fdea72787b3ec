"""Writes src/flow/gapShearTable.ts from gap-oscillating.csv and gap-steady.csv, which gap.py makes.

    python3 gap-table.py

At St = 0 stands the quasi-steady value: a loss k(Re) of 1/2 density U^2 changes by (1 + s/2) k of density U with the speed, s the
slope of ln k over ln Re.
"""
import csv
import math
from pathlib import Path

HERE = Path(__file__).parent
TARGET = HERE / "../../../../src/flow/gapShearTable.ts"


def rows(name):
    lines = [line for line in open(HERE / name) if not line.startswith("#")]
    return [{key: float(value) for key, value in row.items()} for row in csv.DictReader(lines)]


oscillating = {(r["gap_over_diameter"], r["reynolds"], r["fullness"], r["strouhal"]): (r["kappa_re"], r["kappa_im"])
               for r in rows("gap-oscillating.csv")}
steady = {(r["gap_over_diameter"], r["fullness"], r["reynolds"]): r["loss"] for r in rows("gap-steady.csv")}
gaps, reynolds, fullness, strouhal = (sorted({key[i] for key in oscillating}) for i in range(4))


def quasi_steady(gap, re, full):
    known = sorted(r for g, f, r in steady if (g, f) == (gap, full))
    loss = lambda at: math.exp(interpolated(math.log(at), [math.log(r) for r in known], [math.log(steady[gap, full, r]) for r in known]))
    below, above = (re / 1.1, re * 1.1) if re < known[-1] else (re / 1.1, re)
    slope = math.log(loss(above) / loss(below)) / math.log(above / below)
    return loss(re) * (1 + slope / 2)


def interpolated(x, xs, ys):
    k = min(len(xs) - 2, max(0, sum(one <= x for one in xs) - 1))
    return ys[k] + (ys[k + 1] - ys[k]) * (x - xs[k]) / (xs[k + 1] - xs[k])


def text(values):
    return ", ".join(f"{value:.4g}" for value in values)


with open(TARGET, "w") as out:
    out.write("""/**
 * kappa, what a stream adds to the impedance of the gap over density U/S, by linearised Navier-Stokes equations in finite elements:
 * made by tests/reference/flow/stream/gap-table.py, to be read through `gapShear.ts`.
 */
""")
    for name, values in (("GAPS_OVER_DIAMETER", gaps), ("REYNOLDS", reynolds), ("FULLNESS", fullness), ("STROUHAL", [0, *strouhal])):
        out.write(f"export const {name}: readonly number[] = [{text(values)}];\n")
    out.write("\n/** [re, im] by gap, Reynolds number, fullness and, within a line, Strouhal number. */\n// biome-ignore format: a line a case\n")
    out.write("export const KAPPA = Float64Array.of(\n")
    for gap in gaps:
        for re in reynolds:
            for full in fullness:
                pairs = [(quasi_steady(gap, re, full), 0.0), *(oscillating[gap, re, full, one] for one in strouhal)]
                out.write(f"  {text(x for pair in pairs for x in pair)},\n")
    out.write(");\n")
