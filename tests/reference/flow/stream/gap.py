"""Makes gap-steady.csv and gap-oscillating.csv with gap.edp (FreeFem++ must be installed).

    python3 gap.py             both tables (ten minutes of one core)
    python3 gap.py --check     finer elements, longer bores and slow oscillations beside the tables' own
"""
import math
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).parent
CAVITY = 1.15
GAPS = [0.12, 0.3, 0.6, 0.95]                      # over the bore's diameter
REYNOLDS = [800, 1600, 3200]
FULLNESS = [6, 16, 2]
STROUHAL = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.65, 0.9]
STEADY_REYNOLDS = [320, 640, 960, 1290, 1600, 2200, 3200]

SHARED = """\
# {what}
# Made by gap.py with gap.edp: axisymmetric incompressible Navier-Stokes equations, Taylor-Hood finite elements
# (FreeFem++). Gap between two equal bores, sharp edges, cavity radius 1.15 of the bore's; incoming profile u ~ 1 - r^fullness
# two radii before the gap. U mean speed of the bore, D its diameter, S its area, Re = UD/nu, St = f gap/U.
"""
STEADY = SHARED.format(what="Steady loss that the gap adds to the same two bores joined without one, over half density U^2.")
OSCILLATING = SHARED.format(what="What the stream adds to the gap's impedance in still air, over density U/S: kappa.") + """\
# kappa > 0 takes energy from a tone, kappa < 0 gives it. Elements of 0.8 of the size and longer bores: see --check.
"""


def run(gap, fullness, reynolds, omegas, still, *options, cavity=CAVITY):
    """steady pressures by Re, and (blown, still) impedances by (Re, omega); all over density U^2, density U."""
    with tempfile.NamedTemporaryFile("w", suffix=".txt") as plan:
        plan.write(f"{len(reynolds)} {' '.join(map(str, reynolds))}\n{len(omegas)} {' '.join(map(repr, omegas))}\n{int(still)}\n")
        plan.flush()
        names = ["-gap", gap, "-cavity", cavity, "-fullness", fullness, "-plan", plan.name, *options]
        done = subprocess.run(["FreeFem++", "-nw", "-v", "0", "gap.edp", *map(str, names)],
                              cwd=HERE, capture_output=True, text=True, check=True)
    steady, waves = {}, {}
    for line in done.stdout.splitlines():
        kind, *numbers = line.split() or [""]
        if kind == "STEADY":
            steady[float(numbers[0])] = float(numbers[1])
        elif kind == "WAVE":
            re, w, br, bi, sr, si = map(float, numbers)
            waves[re, round(w, 5)] = complex(br, bi), complex(sr, si)
    return steady, waves


def omega(strouhal, gap):
    """In U over the radius, of a gap over the diameter."""
    return round(2 * math.pi * strouhal / (2 * gap), 5)


def steady_table():
    rows = []
    for fullness in sorted(FULLNESS):
        without, _ = run(1e-3, fullness, STEADY_REYNOLDS, [], False, cavity=1 + 1e-3)
        for gap in GAPS:
            with_gap, _ = run(2 * gap, fullness, STEADY_REYNOLDS, [], False)
            for re in STEADY_REYNOLDS:
                rows.append((gap, re, fullness, 2 * (with_gap[re] - without[re])))
                print(*rows[-1], flush=True)
    write("gap-steady.csv", STEADY, "gap_over_diameter,reynolds,fullness,loss", rows)


def oscillating_table():
    rows = []
    for gap in GAPS:
        omegas = [omega(strouhal, gap) for strouhal in STROUHAL]
        still = None
        for fullness in FULLNESS:
            _, waves = run(2 * gap, fullness, REYNOLDS, omegas, still is None)
            still = still or {key: value[1] for key, value in waves.items()}
            for re in REYNOLDS:
                for strouhal, w in zip(STROUHAL, omegas):
                    kappa = waves[re, w][0] - still[re, w]
                    rows.append((gap, re, fullness, strouhal, kappa.real, kappa.imag))
            print("gap", gap, "fullness", fullness, flush=True)
            write("gap-oscillating.csv", OSCILLATING,
                  "gap_over_diameter,reynolds,fullness,strouhal,kappa_re,kappa_im", sorted(rows))


def write(name, header, columns, rows):
    with open(HERE / name, "w") as out:
        out.write(header + columns + "\n")
        for row in rows:
            out.write(",".join(f"{value:.5g}" for value in row) + "\n")


def check():
    gap, re = 0.3, 3200
    omegas = [omega(s, gap) for s in (0.02, 0.25, 0.4)]
    for fullness in (6, 16):
        for options in ([], ["-fine", 0.8], ["-before", 3, "-behind", 10]):
            steady, waves = run(2 * gap, fullness, [1600, re], omegas, True, *options)
            print("fullness", fullness, options, *(f"{blown - still:.4f}" for (r, _), (blown, still) in waves.items() if r == re),
                  flush=True)
        # what a steady stream's loss does to a slow change of it: S/(density U) dp/dQ of the extra loss k Re^-s is (2 - s) k / 2
        around = [re / 1.1, re * 1.1]
        needed = [list(run(length, fullness, around, [], False, cavity=radius)[0].values())
                  for length, radius in ((2 * gap, CAVITY), (1e-3, 1.001))]
        extra = [2 * (with_gap - without) for with_gap, without in zip(*needed)]
        slope = math.log(extra[1] / extra[0]) / math.log(1.21)
        print("fullness", fullness, "quasi-steady", (2 + slope) * math.sqrt(extra[0] * extra[1]) / 2, flush=True)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--check"]:
        check()
    else:
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(lambda make: make(), [oscillating_table, steady_table]))
