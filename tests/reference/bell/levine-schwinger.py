"""Makes levine-schwinger.csv: reflection |R| and end correction L/a of an unflanged pipe, R = -|R| e^(-2jkL).

H. Levine & J. Schwinger, "On the radiation of sound from an unflanged circular pipe", Phys. Rev. 73 (1948) 383-406:

    |R| = exp( -(2ka/pi) int_0^ka  arctan(-J1(x)/N1(x)) / (x sqrt(ka^2 - x^2)) dx )

    L/a = (1/pi) int_0^ka   log( pi J1(x) sqrt(J1(x)^2 + N1(x)^2) ) / (x sqrt(ka^2 - x^2)) dx
        + (1/pi) int_0^inf  log( 1 / (2 I1(x) K1(x)) ) / (x sqrt(x^2 + ka^2)) dx

for ka < 3.83; the arctangent runs on continuously past the zero of N1 at 2.197.

    python3 levine-schwinger.py
"""
from pathlib import Path

from mpmath import atan2, besseli, besselj, besselk, bessely, euler, exp, hypot, inf, log, mp, mpf, nstr, pi, quad, sin, sqrt

mp.dps = 20
HEADER = """\
# Unflanged circular pipe, plane wave, no flow: modulus of the reflection R = -|R| exp(-2jkL) and end correction L over radius.
# Made by levine-schwinger.py: the integrals of Levine & Schwinger 1948 (Phys. Rev. 73, 383) by mpmath quadrature, 20 digits.
# Low-frequency limit of L/a: {limit}. (The 0.6133 printed in 1948 and quoted since is 0.1 % above the integral's own value.)
"""


def ring(g, ka):
    """int_0^ka g(x) / (x sqrt(ka^2 - x^2)) dx, with x = ka sin(t)"""
    return quad(lambda t: g(ka * sin(t)) / (ka * sin(t)), [0, pi / 2])


def modulus(ka):
    angle = lambda x: atan2(besselj(1, x), -bessely(1, x))
    return exp(-2 * ka / pi * ring(angle, ka)) if ka else mpf(1)


def kernel(x):
    """log(1 / (2 I1 K1)); near 0 by its leading term, where the product rounds to 1/2"""
    if x < 1e-5:
        return -x**2 / 2 * (log(x / 2) + euler - 0.25)
    return -log(2 * besseli(1, x) * besselk(1, x))


def correction(ka):
    inner = lambda x: log(pi * besselj(1, x) * hypot(besselj(1, x), bessely(1, x)))
    outer = lambda x: kernel(x) / (x * sqrt(x**2 + ka**2))
    return ((ring(inner, ka) if ka else 0) + quad(outer, [0, ka, 1 + ka, inf] if ka else [0, 1, inf])) / pi


with open(Path(__file__).with_suffix(".csv"), "w") as out:
    out.write(HEADER.format(limit=nstr(correction(mpf(0)), 12)))
    out.write("ka,modulus_R,end_correction_over_radius\n")
    for i in range(36):
        ka = mpf(i) / 10
        out.write(f"{nstr(ka, 3)},{nstr(modulus(ka), 10)},{nstr(correction(ka), 10)}\n")
