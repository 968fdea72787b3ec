"""A rival for the speed benchmark: the whole bore at every frequency by brute force, in vectorised NumPy/SciPy on one core.

    python3 cascade.py input.json
    python3 cascade.py --make setup.json gap_mm sections out.json out.txt     inputs for this and for cascade.c

input.json: {"air": {density, soundSpeed, viscosity, heatRatio, prandtl}, "sections": [[r_in, r_out, length], ...]}, SI, rim first.
Z at 40..2000 Hz by 0.5 Hz, the first 12 peaks (local maxima, parabola through three points) and the first 12 complex
resonances (secant on the admittance from the peaks). Prints one line of JSON; seconds is the best of 3, without start-up.

A section is a lossy cone, spherical waves with the Zwikker-Kosten G and zc of its mean radius (s = slope of the radius):

    p1 = (r2/r1 ch - s/r1 sh/G) p2 + zc/(pi r1 r2) sh U2                            ch, sh = cosh, sinh(G L)
    U1 = pi/zc (r1 r2 sh + s^2 L ch/G - s^2 sh/G^2) p2 + r1/r2 (ch + s/r1 sh/G) U2
"""
import os

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1")

import json
import sys
import time

import numpy as np
from scipy.special import jve

BLOCK = 128  # frequencies at a time, so that the arrays stay in cache


def F(r):
    z = r * np.sqrt(-1j)
    return 2 * jve(1, z) / (z * jve(0, z))


def radiation(air, w, a):
    x = w / air["soundSpeed"] * a
    y = x * x
    R = (1 + 0.800 * y) / (1 + 1.300 * y + 0.266 * y**2 + 0.0263 * y**3)
    L = 0.6133 * (1 + 0.0599 * y) / (1 + 0.238 * y - 0.0153 * y**2 + 0.00150 * y**3)
    reflection = -R * np.exp(-2j * x * L)
    return air["density"] * air["soundSpeed"] / (np.pi * a**2) * (1 + reflection) / (1 - reflection)


class Bore:
    def __init__(self, air, sections):
        self.air = air
        r1, r2, L = (column[:, None] for column in np.array(sections).T)
        self.radii, self.which = np.unique((r1 + r2).ravel() / 2, return_inverse=True)
        self.L, self.end = L, r2[-1, 0]
        s = (r2 - r1) / L
        self.t, self.q, self.area, self.bend = r2 / r1, s / r1, np.pi * r1 * r2, np.pi * s**2

    def block(self, f):
        """Z at the rim for a few frequencies: all sections' matrices at once, then the recursion."""
        rho, c, mu, g, Pr = (self.air[name] for name in ("density", "soundSpeed", "viscosity", "heatRatio", "prandtl"))
        w = 2 * np.pi * f
        r_v = self.radii[:, None] * np.sqrt(w * rho / mu)
        v = 1 - F(r_v)                                    # zv = j w rho / v, yt = j w / (rho c^2) h
        h = 1 + (g - 1) * F(r_v * np.sqrt(Pr))
        root = np.sqrt(h / v)
        G = (1j * w / c * root)[self.which]
        zc = (rho * c * root / h)[self.which]
        e = np.exp(G * self.L)
        sh, ch = (e - 1 / e) / 2, (e + 1 / e) / 2
        shG = sh / G
        A = self.t * ch - self.q * shG
        B = zc / self.area * sh
        C = (self.area * sh + self.bend * (self.L * ch - shG) / G) / zc
        D = (ch + self.q * shG) / self.t
        Z = radiation(self.air, w, self.end)
        for i in range(len(A) - 1, -1, -1):
            Z = (A[i] * Z + B[i]) / (C[i] * Z + D[i])
        return Z

    def impedance(self, f):
        return np.concatenate([self.block(f[i:i + BLOCK]) for i in range(0, len(f), BLOCK)])


def peaks(f, Z, count=12):
    m = np.abs(Z)
    i = np.flatnonzero((m[1:-1] > m[:-2]) & (m[1:-1] >= m[2:]))[:count] + 1
    a, b, c = m[i - 1], m[i], m[i + 1]
    return f[i] + (f[1] - f[0]) * (a - c) / (a - 2 * b + c) / 2


def resonances(bore, start):
    """Secant on Y; steps of at most 0.5 % of the start keep each search with its own peak."""
    f0, f1 = start + 0j, start * (1 + 0.01j)
    y0, y1 = 1 / bore.block(f0), 1 / bore.block(f1)
    for _ in range(40):
        slope = (y1 - y0) / np.where(f1 == f0, 1, f1 - f0)
        step = np.where(slope == 0, 0, y1 / np.where(slope == 0, 1, slope))
        step *= np.minimum(1, 0.005 * start / np.maximum(np.abs(step), 1e-300))
        f0, y0, f1 = f1, y1, f1 - step
        if np.all(np.abs(step) < 1e-9 * start):
            break
        y1 = 1 / bore.block(f1)
    return f1


def run(path):
    with open(path) as file:
        given = json.load(file)
    best = np.inf
    for _ in range(3):
        start = time.perf_counter()
        bore = Bore(given["air"], given["sections"])
        f = 40 + 0.5 * np.arange(3921)
        Z = bore.impedance(f)
        tops = peaks(f, Z)
        poles = resonances(bore, tops)
        best = min(best, time.perf_counter() - start)
    at = Z[np.searchsorted(f, 1000)]
    print(json.dumps({"seconds": best, "peaks": tops.tolist(), "Z_at_1000": [at.real, at.imag],
                      "resonances": [[p.real, p.imag] for p in poles]}))


def make(setup_path, gap_mm, count, json_path, text_path):
    """Cuts the bore of a setup into about count cones, each piece of its profile into equal ones."""
    from horn import bore
    with open(setup_path) as file:
        setup = json.load(file)
    points = bore(setup, float(gap_mm) * 1e-3)
    pieces = [(x1 - x0, d0 / 2, d1 / 2) for (x0, d0), (x1, d1) in zip(points, points[1:]) if x1 > x0]
    cuts = np.ones(len(pieces), int)
    while cuts.sum() < int(count):
        cuts[np.argmax([piece[0] / n for piece, n in zip(pieces, cuts)])] += 1
    sections = []
    for (length, r1, r2), n in zip(pieces, cuts):
        r = r1 + (r2 - r1) * np.arange(n + 1) / n
        sections += [[float(a), float(b), length / n] for a, b in zip(r, r[1:])]
    air = setup["air"]
    with open(json_path, "w") as file:
        json.dump({"air": air, "sections": sections}, file)
    with open(text_path, "w") as file:
        print(*(repr(air[k]) for k in ("density", "soundSpeed", "viscosity", "heatRatio", "prandtl")), file=file)
        print(len(sections), file=file)
        for section in sections:
            print(*(repr(float(value)) for value in section), file=file)


if __name__ == "__main__":
    if sys.argv[1] == "--make":
        make(*sys.argv[2:])
    else:
        run(sys.argv[1])
