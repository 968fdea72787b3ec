"""Makes steep-cone.csv: two-ports of short, steep and of gentler lossy cones, the horn equation integrated by SciPy.

    python3 steep-cone.py

    p' = -Zv U    Zv = j w rho / (S (1 - F(r_v)))              F(r) = 2 J1(z) / (z J0(z)),  z = r sqrt(-j)
    U' = -Yt p    Yt = j w S / (rho c^2) (1 + (g-1) F(r_t))    r_v = a sqrt(w rho/mu),  r_t = r_v sqrt(Pr)

[p, U] at the entrance = [[A, B], [C, D]] [p, U] at the exit. DOP853, rtol 1e-12, from the exit to the entrance; U is
counted in units of p over rho c/(pi a0 a1), and so are B and C here. Invented shapes; the air is that of the head line.
"""
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.special import jve

RHO, C, MU, G, PR = 1.18, 346.0, 1.84e-5, 1.4, 0.71
# length and radii, mm: a cup running into its throat, funnels, the other way round, a backbore, a piece of bell
SHAPES = [(0.456, 3.33, 1.85), (2, 6, 2), (8, 8.2, 1.9), (0.3, 2, 4.5), (24, 2.3, 4.8), (60, 6, 9), (20, 30, 55)]
HERTZ = [30, 117, 466, 2000]


def F(r):
    z = r * np.sqrt(-1j)
    return 2 * jve(1, z) / (z * jve(0, z))


def two_port(h, a0, a1, f):
    w = 2 * np.pi * f
    scale = RHO * C / (np.pi * a0 * a1)

    def slope(x, y):
        a = a0 + (a1 - a0) * x / h
        S = np.pi * a * a
        r_v = a * np.sqrt(w * RHO / MU)
        Zv = 1j * w * RHO / (S * (1 - F(r_v)))
        Yt = 1j * w * S / (RHO * C * C) * (1 + (G - 1) * F(r_v * np.sqrt(PR)))
        return [-Zv * y[1] / scale, -Yt * y[0] * scale]

    columns = [solve_ivp(slope, (h, 0), np.array(start, complex), method="DOP853", rtol=1e-12, atol=1e-14).y[:, -1]
               for start in ([1, 0], [0, 1])]
    return [columns[0][0], columns[1][0], columns[0][1], columns[1][1]]


with open(Path(__file__).with_suffix(".csv"), "w") as out:
    print(f"# density {RHO} kg/m3, sound speed {C} m/s, viscosity {MU} Pa s, heat ratio {G}, Prandtl number {PR}", file=out)
    print("# B in rho c/(pi a0 a1), C in its inverse; SciPy DOP853, rtol 1e-12", file=out)
    print("length_mm,entrance_radius_mm,exit_radius_mm,frequency_hz,a_re,a_im,b_re,b_im,c_re,c_im,d_re,d_im", file=out)
    for h, a0, a1 in SHAPES:
        for f in HERTZ:
            port = two_port(h / 1e3, a0 / 1e3, a1 / 1e3, f)
            parts = [f"{part:.12g}" for entry in port for part in (entry.real, entry.imag)]
            print(",".join([f"{h:g}", f"{a0:g}", f"{a1:g}", f"{f:g}", *parts]), file=out)
