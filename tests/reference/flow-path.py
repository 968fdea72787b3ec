"""Makes flow-path.csv: steady pressure drop of an invented instrument, part by part, computed apart from the project's code.

    python3 flow-path.py

Every part of this bore is one cone, so each loss is one term of the handbook: friction by quadrature (flow-friction.py), a
diffuser 3.2 tan(t/2)^1.25 (1 - A1/A2)^2 (at most 1 for the factor; Idelchik), a contraction 0.5 (1 - A2/A1)^0.75 times
min(1.6 sin(t/2), sqrt(sin(t/2))) (Idelchik; Crane's ratio for angles), Borda-Carnot at steps, rho u^2/2 lost in the room.
Gap: all caught (the step alone), and full expansion into the cavity with sharp re-entry. The straight tube of the body is so long
that the stream there is even again.
"""
from math import atan, exp, pi, sin, tan
from pathlib import Path
from runpy import run_path

HERE = Path(__file__).parent
cone_friction = run_path(str(HERE / "flow-friction.py"), run_name="friction")["cone"]

RHO, MU, ROUGHNESS = 1.17, 1.85e-5, 1.5e-6
CUP, THROAT, BACKBORE = (16.4, 3.7, 11), (3.7, 3.7, 5), (3.7, 8.5, 63)
LEADPIPE, TUBE, FLARE = (8.8, 11.68, 240), (11.68, 11.68, 600), (11.68, 122, 430)
RECEIVER, TAPER, DEPTH, GAP = 10.8, 0.05, 24.54, 2.54


def q(D, Q):
    return RHO * (4 * Q / (pi * (D / 1e3) ** 2)) ** 2 / 2


def half_angle(D1, D2, L):
    return atan(abs(D2 - D1) / (2 * L))


def diffuser(D1, D2, L, Q):
    return min(1, 3.2 * tan(half_angle(D1, D2, L)) ** 1.25) * (1 - (D1 / D2) ** 2) ** 2 * q(D1, Q)


def contraction(D1, D2, L, Q):
    s = sin(half_angle(D1, D2, L))
    return min(1.6 * s, s**0.5) * 0.5 * (1 - (D2 / D1) ** 2) ** 0.75 * q(D2, Q)


def borda_carnot(D1, D2, Q):
    return (1 - (D1 / D2) ** 2) ** 2 * q(D1, Q)


def friction(part, Q):
    return cone_friction(*(x / 1e3 for x in part), Q, RHO, MU, ROUGHNESS)


with open(HERE / "flow-path.csv", "w") as out:
    out.write("# Steady pressure drop, Pa, part by part; see flow-path.py, which made it.\n")
    out.write("litres_per_minute,cup,throat,backbore,gap_lower,gap_upper,leadpipe,body,bell\n")
    for litres in (5, 20, 50):
        Q = litres / 6e4
        bore = max(BACKBORE[1], LEADPIPE[0])
        room = RECEIVER - TAPER * (DEPTH - GAP) - bore
        cavity = bore + room * (1 - exp(-2 * GAP / room))
        drops = [
            friction(CUP, Q) + contraction(*CUP, Q),
            friction(THROAT, Q),
            friction(BACKBORE, Q) + diffuser(*BACKBORE, Q),
            borda_carnot(BACKBORE[1], LEADPIPE[0], Q),
            borda_carnot(BACKBORE[1], cavity, Q) + 0.5 * (1 - (LEADPIPE[0] / cavity) ** 2) ** 0.75 * q(LEADPIPE[0], Q),
            friction(LEADPIPE, Q) + diffuser(*LEADPIPE, Q),
            friction(TUBE, Q) + friction(FLARE, Q) + diffuser(*FLARE, Q),
            q(FLARE[1], Q),
        ]
        out.write(",".join([str(litres), *(repr(float(x)) for x in drops)]) + "\n")
