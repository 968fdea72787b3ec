"""Makes jet.csv: the shear layer at the edge of a jet, by mpmath and SciPy.

    python3 jet.py

laminar_*: the exact boundary layer between a uniform stream and still air, 2 f''' + f f'' = 0, f'(inf) = 1, f'(-inf) = 0,
eta = y sqrt(U/(nu x)) (solve_ivp from the still side, f = -c there with f' decaying; scaled afterwards by f -> a f(a eta)).
The rest: the profile u/U = erfc(s)/2 by quadrature. missed_momentum rows: integral over y of what a layer of no thickness would
have brought inside min(edge, 0) less (u/U)^2 inside min(edge, dividing streamline), for an edge at y, layer scale 1.
"""
from pathlib import Path

import numpy as np
from mpmath import erfc, findroot, inf, mp, mpf, quad
from scipy.integrate import solve_ivp

mp.dps = 25
HERE = Path(__file__).parent


def laminar():
    """Steepest slope of u/U against eta, and u/U where f = 0 (the dividing streamline)."""
    # still side: f = -1 + e^(eta/2) + ..., so f' = e^(eta/2)/2 far out; f' then tends to some m: a = 1/sqrt(m)
    start = -60.0
    e = np.exp(start / 2)
    solution = solve_ivp(lambda _, y: [y[1], y[2], -y[0] * y[2] / 2], (start, 60), [-1 + e, e / 2, e / 4],
                         method="DOP853", rtol=1e-12, atol=1e-16, dense_output=True)
    eta = np.linspace(start, 60, 1200001)
    f, u, slope = solution.sol(eta)
    m = u[-1]
    # f -> a f(a eta), a = m^(-1/2), makes f' tend to 1; f'' then scales by a^3
    return slope.max() * m**-1.5, np.interp(0.0, f, u) / m


def f(s):
    return erfc(s) / 2


lip = findroot(lambda s0: quad(lambda s: f(s) ** 2, [s0, 0, inf]) - quad(lambda s: 1 - f(s) ** 2, [-inf, s0]), -0.4)
dividing = findroot(lambda s: quad(lambda t: 1 - f(t), [-inf, s]) - (s - lip), -0.2)


def missed(y):
    """Integrals in y = s - lip."""
    end = min(lip + y, dividing)
    whole = min(y, 0)
    inside = lambda s: f(s) ** 2
    if end - lip <= whole:
        return quad(lambda s: 1 - inside(s), [-inf, end]) + (whole - (end - lip))
    return quad(lambda s: 1 - inside(s), [-inf, lip + whole]) - quad(inside, [lip + whole, end])


slope, divided = laminar()
rows = [
    ("laminar_vorticity_thickness", 0, 1 / slope),  # over sqrt(nu x/U)
    ("laminar_dividing_speed", 0, divided),
    ("lip", 0, lip),
    ("dividing", 0, dividing),
    ("dividing_speed", 0, f(dividing)),
]
rows += [("momentum_beyond", s, quad(lambda t: f(t) ** 2, [s, s + 2, inf])) for s in map(mpf, ("-3", "-1", "-0.2", "0", "0.5", "1.5", "3"))]
rows += [("missed_momentum", y, missed(y)) for y in map(mpf, ("-4", "-2", "-1", "-0.5", "1", "2", "5"))]
with open(HERE / "jet.csv", "w") as out:
    out.write("# The shear layer at a jet's edge; see jet.py, which made it.\n")
    out.write("what,at,value\n")
    for what, at, value in rows:
        out.write(f"{what},{float(at)!r},{float(value)!r}\n")
