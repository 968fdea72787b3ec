"""Makes path.csv: steady pressure drop of an invented instrument, part by part, computed apart from the project's code.

    python3 path.py

Every part of this bore is one cone, so each loss is one term of the handbook: friction by quadrature (friction.py), a
diffuser 3.2 tan(t/2)^1.25 (1 - A1/A2)^2 (at most 1 for the factor; Idelchik), Borda-Carnot at steps, rho u^2/2 lost in the room.
Cup: its friction, and the vena contracta of von Mises past a sloping wall, by quadrature, times Idelchik's factor for an edge
rounded to the 0.5 mm that is assumed, as far as friction is turbulent. Throat: Schiller's laminar entrance, integrated as an
ordinary differential equation, or developed friction where that is more; what the stream carries more than a flat one there is
lost in the backbore with the rest. Gap: all caught (the step alone), and full expansion into the cavity with sharp re-entry and
the laminar friction of a wall as long as the gap. The straight tube of the body is so long that the stream there is even again.
"""
from math import atan, exp, log, pi, sin, tan
from pathlib import Path
from runpy import run_path

from scipy.integrate import quad, solve_ivp

HERE = Path(__file__).parent
cone_friction = run_path(str(HERE / "friction.py"), run_name="friction")["cone"]

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


def turbulent(reynolds):
    s = min(1, max(0, log(reynolds / 2300) / log(4000 / 2300)))
    return s * s * (3 - 2 * s)


def edge(D1, D2, L, Q, reynolds):
    wall = half_angle(D1, D2, L)
    spread = quad(lambda g: sin(wall * g / pi) / tan(g / 2), 0, pi, limit=200)[0] / pi
    rounded = (0.03 + 0.47 * 10 ** (-7.7 * 0.5 / D2)) / 0.5
    return spread ** 2 * rounded * turbulent(reynolds) * q(D2, Q)


def entrance(D, L, Q, reynolds):
    """Power lost, Pa, and the factor of kinetic energy at the end of a pipe that the stream enters flat: y/delta profile by quadrature."""
    mean = lambda d: 1 - 2 * d / 3 + d * d / 6
    moment = lambda d, power: (1 - d) ** 2 + quad(lambda e: (2 * e - e * e) ** power * 2 * (1 - d * e) * d, 0, 1)[0]
    flux = lambda d: (moment(d, 2) - 0.5) / mean(d) ** 2
    slope = lambda d: (flux(d + 1e-4) - flux(d - 1e-4)) / 2e-4
    # from a thin layer on, where flux falls as -14 d/15 + 4 d/6
    start = 1e-3
    begun = -slope(start) * start ** 2 / 8
    end = 4 * L / D / reynolds
    d = solve_ivp(lambda x, y: [-4 / (max(y[0], start) * mean(y[0]) * slope(y[0]))], (begun, end), [start], rtol=1e-8, atol=1e-10).y[0, -1]
    factor = moment(d, 3) / mean(d) ** 3
    return (mean(d) ** -2 - factor) * q(D, Q), factor


def borda_carnot(D1, D2, Q):
    return (1 - (D1 / D2) ** 2) ** 2 * q(D1, Q)


def friction(part, Q):
    return cone_friction(*(x / 1e3 for x in part), Q, RHO, MU, ROUGHNESS)


with open(HERE / "path.csv", "w") as out:
    out.write("# Steady pressure drop, Pa, part by part; see path.py, which made it.\n")
    out.write("litres_per_minute,cup,throat,backbore,gap_lower,gap_upper,leadpipe,body,bell\n")
    for litres in (3, 5, 20, 50):
        Q = litres / 6e4
        reynolds = 4 * RHO * Q / (pi * MU * THROAT[0] / 1e3)
        lost, factor = entrance(THROAT[0], THROAT[2], Q, reynolds)
        rubbed = 8 * pi * MU * (4 * Q / (pi * (BACKBORE[1] / 1e3) ** 2)) * GAP / 1e3 / (pi * (LEADPIPE[0] / 2e3) ** 2)
        bore = max(BACKBORE[1], LEADPIPE[0])
        room = RECEIVER - TAPER * (DEPTH - GAP) - bore
        cavity = bore + room * (1 - exp(-2 * GAP / room))
        drops = [
            friction(CUP, Q) + edge(*CUP, Q, reynolds),
            max(lost, friction(THROAT, Q)),
            friction(BACKBORE, Q) + (1 + (1 - turbulent(reynolds)) * (factor - 1)) * diffuser(*BACKBORE, Q),
            borda_carnot(BACKBORE[1], LEADPIPE[0], Q),
            borda_carnot(BACKBORE[1], cavity, Q) + 0.5 * (1 - (LEADPIPE[0] / cavity) ** 2) ** 0.75 * q(LEADPIPE[0], Q) + rubbed,
            friction(LEADPIPE, Q) + diffuser(*LEADPIPE, Q),
            friction(TUBE, Q) + friction(FLARE, Q) + diffuser(*FLARE, Q),
            q(FLARE[1], Q),
        ]
        out.write(",".join([str(litres), *(repr(float(x)) for x in drops)]) + "\n")
