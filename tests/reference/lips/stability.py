"""Makes stability.json: eigenvalues, thresholds and rests of one-mass outward-striking lips on a modal air column.

The system of Velut, Vergez, Gilbert & Djahanbani 2017, linearised at its rest and written as one real matrix in
[y, y', a1, b1, a2, b2, ...] with p_n = a_n + j b_n, p = 2 sum a_n; eigenvalues by LAPACK through numpy.linalg.eigvals,
rests by scipy.optimize.brentq on the nonlinear balance, thresholds by brentq on the largest real part. An invented column,
rounded from no real instrument; the lips are several, among them heavy, light, nearly undamped and critically damped ones.

    python3 stability.py
"""
import json
from pathlib import Path

import numpy as np
from scipy.optimize import brentq

DENSITY = 1.17
REFERENCE_HZ = 233.08
FREQUENCIES = [84, 233, 349, 465, 582, 697, 813, 928, 1043, 1159, 1274, 1397]
QUALITIES = [17, 29, 35, 38, 41, 41, 41, 42, 39, 35, 32, 31]
RESIDUES = [1.4e9, 1.88e9, 3e9, 4.44e9, 5.01e9, 6.7e9, 7.17e9, 4.62e9, 2.84e9, 1.85e9, 1.23e9, 8.6e8]
ANGLES = [-0.001, -0.015, -0.019, -0.02, -0.023, -0.02, -0.0015, 0.023, 0.033, 0.033, 0.013, 0.009]

w = 2 * np.pi * np.array(FREQUENCIES, float)
POLES = -w / (2 * np.array(QUALITIES)) + 1j * w
C = np.array(RESIDUES) * np.exp(1j * np.array(ANGLES))

LIPS = {
    "usual": dict(massPerArea=5.8, massExponent=1, quality=7, restOpening=0.5e-3, width=7e-3),
    "one mass": dict(massPerArea=9.0, massExponent=0, quality=7, restOpening=0.5e-3, width=12e-3),
    "light": dict(massPerArea=1.5, massExponent=0.5, quality=3, restOpening=0.2e-3, width=9e-3),
    "nearly undamped": dict(massPerArea=5.8, massExponent=1, quality=60, restOpening=0.5e-3, width=7e-3),
    "critically damped": dict(massPerArea=5.8, massExponent=1, quality=0.5, restOpening=0.5e-3, width=7e-3),
}


def rest(lips, lip_hz, mouth):
    """Opening, flow and cup pressure of the steady stream."""
    wl = 2 * np.pi * lip_hz
    mass = lips["massPerArea"] * (REFERENCE_HZ / lip_hz) ** lips["massExponent"]
    resistance = 2 * np.real(np.sum(C / -POLES))
    opening = lambda p: lips["restOpening"] + (mouth - p) / (mass * wl**2)
    flow = lambda p: lips["width"] * opening(p) * np.sqrt(2 * (mouth - p) / DENSITY)
    p = brentq(lambda p: resistance * flow(p) - p, 0, mouth, xtol=1e-12 * mouth, rtol=1e-15)
    return opening(p), flow(p), p, mass, wl


def matrix(lips, lip_hz, mouth):
    y, u, p, mass, wl = rest(lips, lip_hz, mouth)
    drop = mouth - p
    by_opening = u / y
    by_pressure = -u / (2 * drop)
    n = 2 + 2 * len(POLES)
    A = np.zeros((n, n))
    pressure = np.zeros(n)
    pressure[2::2] = 2
    flow = by_pressure * pressure
    flow[0] = by_opening
    A[0, 1] = 1
    A[1] = -pressure / mass
    A[1, 0] -= wl**2
    A[1, 1] -= wl / lips["quality"]
    for k, (s, c) in enumerate(zip(POLES, C)):
        i = 2 + 2 * k
        A[i, i : i + 2] += [s.real, -s.imag]
        A[i + 1, i : i + 2] += [s.imag, s.real]
        A[i] += c.real * flow
        A[i + 1] += c.imag * flow
    return A


def growth(lips, lip_hz, mouth):
    return np.max(np.linalg.eigvals(matrix(lips, lip_hz, mouth)).real)


def first_threshold(lips, lip_hz):
    """Lowest mouth pressure, to 100 kPa, above which the rest is unstable."""
    grid = np.geomspace(20, 1e5, 800)
    grows = [growth(lips, lip_hz, p) for p in grid]
    for a, b, ga, gb in zip(grid, grid[1:], grows, grows[1:]):
        if ga < 0 <= gb:
            mouth = brentq(lambda p: growth(lips, lip_hz, p), a, b, xtol=1e-9, rtol=1e-13)
            values = np.linalg.eigvals(matrix(lips, lip_hz, mouth))
            return dict(pressure=mouth, frequency=np.max(np.abs(values[np.argmax(values.real)].imag)) / (2 * np.pi))
    return None


def pairs(values):
    return [x for v in values for x in (float(v.real), float(v.imag))]


cases = []
for name, lips in LIPS.items():
    for lip_hz in (90, 223, 434, 655, 901, 1120):
        for mouth in (100, 3000, 15000):
            y, u, p, *_ = rest(lips, lip_hz, mouth)
            values = np.linalg.eigvals(matrix(lips, lip_hz, mouth))
            values = values[np.lexsort((values.real, values.imag))]
            cases.append(dict(lips=name, lipHz=lip_hz, mouthPressure=mouth, opening=y, flow=u, cupPressure=p, eigenvalues=pairs(values)))

thresholds = []
for name, lips in LIPS.items():
    for lip_hz in (75, 95, 200, 223, 320, 434, 545, 655, 780, 901, 1000, 1120):
        found = first_threshold(lips, lip_hz)
        thresholds.append(dict(lips=name, lipHz=lip_hz, **(found or dict(pressure=None, frequency=None))))

Path(__file__).with_suffix(".json").write_text(
    json.dumps(
        dict(
            about="Made by stability.py: numpy.linalg.eigvals (LAPACK dgeev) and scipy.optimize.brentq. SI.",
            density=DENSITY,
            poles=pairs(POLES),
            residues=pairs(C),
            lips=LIPS,
            cases=cases,
            thresholds=thresholds,
        ),
        indent=1,
    )
    + "\n"
)
