"""Makes oscillation.csv: an oscillating flow through a quadratic loss.

    python3 oscillation.py

harmonic: first harmonic (by mpmath quadrature over a cycle, in step with the flow) of the pressure of U sin(wt) through a
loss of k_out U^2 outward and k_back U^2 back, over U.
driven: amplitude of the flow that P sin(wt) drives through a mass M, a linear resistance R and a loss k |U|U, in the steady
state (SciPy solve_ivp, rtol 1e-10, first harmonic of the last of many cycles). A describing function drops the higher
harmonics, so it can meet this only to a per cent or two.
"""
from pathlib import Path

import numpy as np
from mpmath import mp, mpf, pi, quad, sin
from scipy.integrate import solve_ivp

mp.dps = 20
HERE = Path(__file__).parent


def harmonic(k_out, k_back, U):
    def pressure(t):
        u = U * sin(t)
        return k_out * u * u if u > 0 else -k_back * u * u

    return quad(lambda t: pressure(t) * sin(t), [0, pi, 2 * pi]) / pi / U


def driven(P, w, M, R, k):
    cycles, n = 60, 4096
    T = 2 * np.pi / w
    t = np.linspace((cycles - 1) * T, cycles * T, n + 1)
    u = solve_ivp(lambda t, u: (P * np.sin(w * t) - R * u - k * np.abs(u) * u) / M, (0, cycles * T), [0.0], t_eval=t,
                  rtol=1e-10, atol=1e-16, max_step=T / 50).y[0][:-1]
    return float(2 * abs(np.mean(u * np.exp(-1j * w * t[:-1]))))


with open(HERE / "oscillation.csv", "w") as out:
    out.write("# Oscillating flow through a quadratic loss; see oscillation.py, which made it. SI.\n")
    out.write("kind,k_out,k_back,amplitude,omega,mass,resistance,value\n")
    for k_out, k_back, U in (("1e8", "1e8", "1e-4"), ("3e9", "1e9", "2e-4"), ("5e8", "0", "3e-5")):
        value = harmonic(mpf(k_out), mpf(k_back), mpf(U))
        out.write(f"0,{k_out},{k_back},{U},0,0,0,{float(value)!r}\n")
    # a throat-like constriction: rho L/S and rho K/(2 S^2)
    for P, w, M, R, k in ((500, 2 * np.pi * 466, 700, 2e5, 4e9), (3000, 2 * np.pi * 233, 700, 2e5, 4e9), (3000, 2 * np.pi * 233, 700, 0, 2e10)):
        out.write(f"1,{k},{k},{P},{w!r},{M},{R},{driven(P, w, M, R, k)!r}\n")
