"""Makes radiation.csv: elements of the flanged mouth's radiation impedance matrix, by SciPy.

    python3 radiation.py

Functions phi_q = sqrt(2q+1) P_q(1 - 2 s^2) on the disc s < 1. The reactance is not taken from its own, slowly falling
integral but from the resistance R(x) by Kramers and Kronig, X(x) = (2x/pi) P int R(y)/(y^2 - x^2) dy (R/1 -> delta_mn at
high frequency, which is subtracted and has no reactance). m = n = 0 is the classical piston,
1 - J1(2x)/x + j H1(2x)/x (Morse & Ingard 1968, section 7.4), written instead.
"""
from pathlib import Path

import numpy as np
from scipy.integrate import quad
from scipy.special import jv, struve

GAUSS = np.polynomial.legendre.leggauss(400)


def resistance(m, n, x):
    t = (GAUSS[0] + 1) * np.pi / 4
    y = np.multiply.outer(np.atleast_1d(x), np.sin(t)) + 1e-12
    overlap = 4 * np.sqrt((2 * m + 1) * (2 * n + 1)) * jv(2 * m + 1, y) * jv(2 * n + 1, y) / y**2
    return np.squeeze(np.atleast_1d(x) ** 2 / 2 * ((overlap * np.sin(t)) @ GAUSS[1]) * np.pi / 4)


def reactance(m, n, x, last=200.0):
    high = 1.0 if m == n else 0.0
    weight = lambda y: (resistance(m, n, y) - high) / (y + x)
    near = quad(weight, 0, 2 * x, weight="cauchy", wvar=x, epsabs=1e-11)[0]
    edges = np.linspace(2 * x, last, 200)
    far = sum(quad(lambda y: weight(y) / (y - x), a, b, epsabs=1e-12)[0] for a, b in zip(edges[:-1], edges[1:]))
    return 2 * x / np.pi * (near + far)


def element(m, n, x):
    if m == n == 0:
        return 1 - jv(1, 2 * x) / x, struve(1, 2 * x) / x
    return float(resistance(m, n, x)), reactance(m, n, x)


if __name__ == "__main__":
    print("check of the method on the piston:", reactance(0, 0, 1.0) - struve(1, 2.0))
    with open(Path(__file__).parent / "radiation.csv", "w") as out:
        out.write("# Elements of the flanged mouth's radiation impedance matrix, in units of rho c/S. Made by radiation.py:\n")
        out.write("# the piston in closed form, the others' reactance from their resistance by Kramers and Kronig; error about 1e-5.\n")
        out.write("ka,m,n,re,im\n")
        for x in (0.3, 1.0, 2.5, 5.0):
            for m, n in ((0, 0), (0, 1), (1, 1), (0, 2), (2, 2), (1, 3)):
                re, im = element(m, n, x)
                out.write(f"{x},{m},{n},{re:.8g},{im:.8g}\n")
