"""Makes in-time.json: the nonlinear lips and air column of stability.py integrated in time.

scipy.integrate.solve_ivp, DOP853, relative tolerance 1e-10, on the same poles, residues and lips. The mouth pressure rises
from 0 as sin^2 over the first 5 ms. Kept: the cup's pressure every millisecond, and the frequency of what comes of it, from
the lips' rising crossings of their mean over the last 0.2 s.

    python3 in-time.py
"""
import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

here = Path(__file__).parent
column = json.loads((here / "stability.json").read_text())
POLES = np.array(column["poles"]).view(complex)
C = np.array(column["residues"]).view(complex)
DENSITY = column["density"]
REFERENCE_HZ = 233.08

CASES = [
    ("usual", 223, 5000, 0.7),
    ("usual", 434, 6000, 0.7),
    ("usual", 893, 9000, 0.5),
    ("light", 655, 6000, 0.5),
]


RISE = 5e-3


def run(name, lip_hz, mouth, seconds):
    lips = column["lips"][name]
    wl = 2 * np.pi * lip_hz
    mass = lips["massPerArea"] * (REFERENCE_HZ / lip_hz) ** lips["massExponent"]

    def slope(t, x):
        p = 2 * np.sum(x[2::2])
        drop = (mouth * np.sin(np.pi * min(t / RISE, 1) / 2) ** 2) - p
        u = lips["width"] * max(x[0], 0) * np.sign(drop) * np.sqrt(2 * abs(drop) / DENSITY)
        d = POLES * (x[2::2] + 1j * x[3::2]) + C * u
        out = np.empty_like(x)
        out[0] = x[1]
        out[1] = -wl / lips["quality"] * x[1] - wl**2 * (x[0] - lips["restOpening"]) + drop / mass
        out[2::2] = d.real
        out[3::2] = d.imag
        return out

    start = np.zeros(2 + 2 * len(POLES))
    start[0] = lips["restOpening"]
    scale = np.full(start.shape, 1e-7)
    scale[0] = 1e-14
    scale[1] = 1e-11
    rate = 20000
    t = np.arange(int(seconds * rate) + 1) / rate
    x = solve_ivp(slope, (0, t[-1]), start, "DOP853", t, rtol=1e-10, atol=scale, max_step=2e-4).y
    first = 2 * np.sum(x[2::2], axis=0)[: 40 * rate // 1000 + 1 : rate // 1000]
    y = x[0, -rate // 5 :]
    y = y - y.mean()
    up = np.flatnonzero((y[:-1] < 0) & (y[1:] >= 0))
    crossings = up + y[up] / (y[up] - y[up + 1])
    frequency = (len(crossings) - 1) / (crossings[-1] - crossings[0]) * rate
    return dict(lips=name, rise=RISE, lipHz=lip_hz, mouthPressure=mouth, seconds=seconds, pressureEveryMs=first.tolist(), frequency=frequency)


(here / "in-time.json").write_text(
    json.dumps(dict(about="Made by in-time.py: scipy solve_ivp, DOP853, rtol 1e-10. SI.", cases=[run(*case) for case in CASES]), indent=1) + "\n"
)
