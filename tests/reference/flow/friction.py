"""Makes friction.csv and cone-friction.csv: pipe friction by SciPy.

    python3 friction.py

friction.csv: Darcy's f as the root of Colebrook's implicit equation (brentq), 64/Re where laminar.
cone-friction.csv: pressure lost along a cone, integral of f rho u^2/(2 D) dx (quad in x), with f = 64/Re up to Re 2300,
Colebrook from 4000, and between them f_lam^(1-w) f_turb^w, w = s^2 (3 - 2s), s = ln(Re/2300)/ln(4000/2300).
"""
from math import log, log10, pi
from pathlib import Path

from scipy.integrate import quad
from scipy.optimize import brentq

HERE = Path(__file__).parent


def colebrook(Re, rel):
    return brentq(lambda f: f**-0.5 + 2 * log10(rel / 3.7 + 2.51 / (Re * f**0.5)), 1e-3, 1, xtol=1e-16, rtol=1e-14)


def friction(Re, rel):
    if Re <= 2300:
        return 64 / Re
    if Re >= 4000:
        return colebrook(Re, rel)
    s = log(Re / 2300) / log(4000 / 2300)
    w = s * s * (3 - 2 * s)
    return (64 / Re) ** (1 - w) * colebrook(Re, rel) ** w


def cone(D1, D2, L, Q, rho, mu, roughness):
    def slope(x):
        D = D1 + (D2 - D1) * x / L
        u = 4 * Q / (pi * D**2)
        return friction(rho * u * D / mu, roughness / D) * rho * u * u / (2 * D)

    # where the regime changes, if it does inside
    at = [(4 * Q * rho / (pi * mu * Re) - D1) / (D2 - D1) * L for Re in (2300, 4000)] if D1 != D2 else []
    return quad(slope, 0, L, points=[x for x in at if 0 < x < L] or None, epsabs=0, epsrel=1e-11, limit=400)[0]


def write():
    with open(HERE / "friction.csv", "w") as out:
        out.write("# Darcy friction factor: root of Colebrook's equation by SciPy's brentq, 64/Re where laminar. Made by friction.py.\n")
        out.write("reynolds,relative_roughness,darcy_factor\n")
        for Re in (1, 50, 640, 2300):
            out.write(f"{Re},0,{64 / Re!r}\n")
        for Re in (4e3, 5e3, 7e3, 1e4, 2e4, 5e4, 1e5, 1e6, 1e8):
            for rel in (0, 1e-5, 2e-4, 1e-3, 1e-2, 5e-2):
                out.write(f"{Re:.0f},{rel},{colebrook(Re, rel)!r}\n")

    RHO, MU, ROUGHNESS = 1.17, 1.85e-5, 1.5e-6
    CASES = [  # mm, mm, mm, L/min
        (3.7, 3.7, 6.2, 20), (3.7, 3.7, 6.2, 5), (3.7, 8.4, 70, 20), (3.7, 8.4, 70, 6), (8.4, 3.7, 70, 20),
        (8.75, 11.68, 240, 20), (8.75, 11.68, 240, 30), (16.4, 3.7, 10, 20), (11.68, 122, 500, 60), (11.68, 11.68, 500, 25),
    ]
    with open(HERE / "cone-friction.csv", "w") as out:
        out.write("# Pressure lost by friction along a cone, Pa, integrated by SciPy's quad; see friction.py, which made it.\n")
        out.write(f"# Density {RHO} kg/m3, viscosity {MU} Pa s, roughness {ROUGHNESS} m.\n")
        out.write("diameter_in_mm,diameter_out_mm,length_mm,litres_per_minute,drop_Pa\n")
        for D1, D2, L, q in CASES:
            drop = cone(D1 / 1e3, D2 / 1e3, L / 1e3, q / 6e4, RHO, MU, ROUGHNESS)
            out.write(f"{D1},{D2},{L},{q},{drop!r}\n")


if __name__ == "__main__":
    write()
