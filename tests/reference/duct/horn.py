"""Makes horns.json: input impedance of invented bores by integrating the lossy plane-wave horn equation.

    python3 horn.py                                        writes horns.json (a few minutes)
    python3 horn.py --check start-horn.reference.json      compares with an earlier table (its setup file beside it)

    dp/dx = -Zv U    Zv = j w rho / (S (1 - F(r_v)))              F(r) = 2 J1(z) / (z J0(z)),  z = r sqrt(-j)
    dU/dx = -Yt p    Yt = j w S / (rho c^2) (1 + (g-1) F(r_t))    r_v = a sqrt(w rho/mu),  r_t = r_v sqrt(Pr)

p and U are continuous at steps (plane junctions). The bell radiates unflanged (Silva et al. 2009) with Zc = rho c/S.
SciPy DOP853, rtol 1e-10, from the bell to the rim, one piece of the profile at a time.
"""
import json
import sys
from pathlib import Path

import numpy as np
from numpy.polynomial import chebyshev
from scipy.integrate import solve_ivp
from scipy.special import jve

HERE = Path(__file__).parent
UNIT = {"mm": 1e-3, "in": 25.4e-3}


# ---- the bore: [x, diameter] from rim to bell, a repeated x is a step (metres)

def bore(setup, gap):
    m = UNIT[setup["units"]]
    receiver, depth = setup["receiver"], setup["receiver"]["depth"] * m

    def cavity(x):
        return receiver["mouthDiameter"] * m - receiver["taper"] * x

    parts = [np.array(setup["mouthpiece"]["profile"]) * m,
             np.array([[0, cavity(depth - gap)], [gap, cavity(depth)]]),
             np.array(setup["leadpipe"]["profile"]) * m,
             np.array(setup["body"]["profile"]) * m]
    points, start = [], 0.0
    for part in parts:
        points += [(start + x - part[0, 0], d) for x, d in part]
        start = points[-1][0]
    return np.array(points)


# ---- the physics

def F(r):
    z = r * np.sqrt(-1j)
    return 2 * jve(1, z) / (z * jve(0, z))


def radiation(air, w, a):
    """p/U of an unflanged pipe end of radius a."""
    k = w / air["soundSpeed"]
    x = k * a
    R = (1 + 0.800 * x**2) / (1 + (0.5 + 0.800) * x**2 + 0.266 * x**4 + 0.0263 * x**6)
    L = 0.6133 * a * (1 + 0.0599 * x**2) / (1 + 0.238 * x**2 - 0.0153 * x**4 + 0.00150 * x**6)
    reflection = -R * np.exp(-2j * k * L)
    Zc = air["density"] * air["soundSpeed"] / (np.pi * a**2)
    return Zc * (1 + reflection) / (1 - reflection)


def impedance(setup, gap, f, rtol=1e-10):
    """Z(f) at the rim; every frequency integrates at once."""
    air = setup["air"]
    rho, c, mu, g, Pr = (air[name] for name in ("density", "soundSpeed", "viscosity", "heatRatio", "prandtl"))
    w = 2 * np.pi * np.asarray(f, float)
    points = bore(setup, gap)
    Z = radiation(air, w, points[-1, 1] / 2)
    for (x0, d0), (x1, d1) in zip(points[-2::-1], points[:0:-1]):
        if x1 == x0:
            continue
        Z0 = rho * c / (np.pi * d0 * d1 / 4)  # scales U to the size of p

        def slope(x, y):
            p, q = y.reshape(2, -1)  # q = Z0 U
            a = (d0 + (d1 - d0) * (x - x0) / (x1 - x0)) / 2
            S = np.pi * a**2
            r_v = a * np.sqrt(w * rho / mu)
            Zv = 1j * w * rho / (S * (1 - F(r_v)))
            Yt = 1j * w * S / (rho * c**2) * (1 + (g - 1) * F(r_v * np.sqrt(Pr)))
            return np.concatenate([-Zv / Z0 * q, -Yt * Z0 * p])

        size = np.abs(Z) + Z0
        end = np.concatenate([Z / size, Z0 / size]).astype(complex)
        y = solve_ivp(slope, (x1, x0), end, method="DOP853", rtol=rtol, atol=1e-2 * rtol).y[:, -1]
        p, q = y.reshape(2, -1)
        Z = Z0 * p / q
    return Z


# ---- the peaks of |Z|

def peaks(setup, gap, count, top=2000):
    f = np.arange(20, top, 1.0)
    coarse = np.abs(impedance(setup, gap, f, rtol=1e-5))
    tops = np.flatnonzero((coarse[1:-1] > coarse[:-2]) & (coarse[1:-1] >= coarse[2:])) + 1
    return [peak(setup, gap, f[i]) for i in tops[:count]]


def peak(setup, gap, f, half=2.0, degree=8):
    """|Y|^2 through a Chebyshev polynomial on f -+ half Hz; its least value is the peak."""
    nodes = chebyshev.chebpts1(degree + 1)
    Y = 1 / impedance(setup, gap, f + half * nodes)
    re, im = (chebyshev.chebfit(nodes, part / np.abs(Y).max(), degree) for part in (Y.real, Y.imag))
    square = chebyshev.chebadd(chebyshev.chebmul(re, re), chebyshev.chebmul(im, im))
    roots = chebyshev.chebroots(chebyshev.chebder(square))
    inside = roots[(np.abs(roots.imag) < 1e-9) & (np.abs(roots.real) <= 1)].real
    best = inside[np.argmin(chebyshev.chebval(inside, square))]
    height = np.abs(Y).max() * np.sqrt(chebyshev.chebval(best, square))
    return {"frequency_Hz": float(f + half * best), "magnitude_Pa_s_m3": float(1 / height)}


# ---- the invented bores

AIR = {"density": 1.1839, "soundSpeed": 346.2, "viscosity": 1.8371e-5, "heatRatio": 1.4018, "prandtl": 0.7078}
WARM = {"density": 1.1455, "soundSpeed": 351.9, "viscosity": 1.8910e-5, "heatRatio": 1.4011, "prandtl": 0.7062}
MODEL = {"junction": "plane", "radiation": "unflanged", "bell": "plane"}


def cup(rim, throat, depth, points=14):
    """A rounded bowl from rim to throat diameter, rows of [x, diameter]."""
    t = np.linspace(0, 1, points)
    return [[depth * s, throat + (rim - throat) * (1 - s**2.6) ** 0.7] for s in t]


def flare(x0, d0, x1, d1, power=0.62, points=48):
    """d = B (x1 + e - x)^-power, so that the wall steepens toward the rim; closer points where it is steep."""
    ratio = (d1 / d0) ** (1 / power)
    e = (x1 - x0) / (ratio - 1)
    x = x1 + e - np.geomspace(x1 - x0 + e, e, points)
    return [[s, d1 * (e / (x1 + e - s)) ** power] for s in x]


def rounded(rows, digits=4):
    return [[round(float(x), digits), round(float(d), digits)] for x, d in rows]


CORNET = {
    "format": "annulus-setup", "version": 1, "name": "Invented cornet-like bore",
    "about": "Invented dimensions, of no real instrument: a deep cup, a small shank, a mostly conical body.",
    "units": "mm", "air": AIR,
    "mouthpiece": {
        "profile": rounded(cup(16.2, 3.9, 14.5) + [[19, 3.9], [34, 5.0], [50, 6.1], [66, 7.2]]),
        "cupDepth": 14.5, "shankEndDiameter": 8.325, "shankTaper": 0.05, "insertion": 21.5},
    "receiver": {"mouthDiameter": 9.4, "taper": 0.05, "depth": 23.2},
    "leadpipe": {"profile": [[0, 7.5], [60, 8.3], [210, 11.3]]},
    "body": {"profile": rounded([[0, 11.3], [90, 11.9], [430, 11.9], [520, 12.6], [610, 14.1]]
                                + flare(700, 16.2, 1085, 119)), "slideAt": 150},
    "model": MODEL}

TROMBONE = {
    "format": "annulus-setup", "version": 1, "name": "Invented trombone-like bore",
    "about": "Invented dimensions, of no real instrument: a long cylinder of two bores with a step between them.",
    "units": "in", "air": WARM,
    "mouthpiece": {
        "profile": rounded(cup(1.01, 0.261, 0.98) + [[1.2, 0.261], [1.9, 0.33], [2.6, 0.393], [3.25, 0.448]]),
        "cupDepth": 0.98, "shankEndDiameter": 0.505, "shankTaper": 0.05, "insertion": 1.02},
    "receiver": {"mouthDiameter": 0.556, "taper": 0.05, "depth": 1.11},
    "leadpipe": {"profile": [[0, 0.468], [1.5, 0.472], [9, 0.546]]},
    "body": {"profile": rounded([[0, 0.546], [28, 0.546], [28, 0.5625], [58, 0.5625], [66, 0.62], [76, 0.79]]
                                + flare(83, 0.97, 104, 8.4)), "slideAt": 61},
    "model": MODEL}

WIDE_LEADPIPE = {
    "format": "annulus-setup", "version": 1, "name": "Invented bore with a leadpipe wider than its receiver",
    "about": "Invented dimensions, of no real instrument: the leadpipe starts wider than the receiver cavity ends.",
    "units": "mm", "air": AIR,
    "mouthpiece": {
        "profile": rounded(cup(17.4, 4.3, 17) + [[23, 4.3], [45, 5.9], [72, 8.1]]),
        "cupDepth": 17, "shankEndDiameter": 9.36, "shankTaper": 0.06, "insertion": 19},
    "receiver": {"mouthDiameter": 10.5, "taper": 0.06, "depth": 22.5},
    "leadpipe": {"profile": [[0, 9.9], [40, 9.9], [180, 12.4]]},
    "body": {"profile": rounded([[0, 12.4], [560, 13.2], [900, 19.5], [1250, 30.5]]
                                + flare(1420, 38, 1790, 205)), "slideAt": 100},
    "model": MODEL}

FREQUENCIES = [72.0, 118.0, 163.0, 207.0, 251.0, 309.0, 377.0, 446.0, 530.0, 645.0, 790.0, 985.0, 1240.0, 1610.0]
BORES = [(CORNET, [0, 1.7, 4.5], 9), (TROMBONE, [0.508, 2.286], 10), (WIDE_LEADPIPE, [0, 0.8, 3.5], 10)]


def case(setup, gap_mm, count):
    Z = impedance(setup, gap_mm * 1e-3, FREQUENCIES)
    return {"setup": setup, "gap_mm": gap_mm, "frequency_Hz": FREQUENCIES,
            "re_Pa_s_m3": Z.real.tolist(), "im_Pa_s_m3": Z.imag.tolist(), "peaks": peaks(setup, gap_mm * 1e-3, count)}


def make():
    cases = [case(setup, gap, count) for setup, gaps, count in BORES for gap in gaps]
    about = ("Input impedance at the rim plane, e^(+j w t). Made by horn.py: the lossy plane-wave horn equation integrated with "
             "SciPy DOP853, rtol 1e-10; plane junctions; unflanged radiation of Silva et al. 2009 with Zc = rho c/S. "
             "peaks: maxima of |Z|. All bores are invented. Each case's setup is complete; its gap_mm overrides the insertion.")
    text = json.dumps({"about": about, "cases": cases}, indent=1)
    (HERE / "horns.json").write_text(text + "\n")


def check(path):
    """Differences from an earlier table in dB (of |Z|), relative (of complex Z) and cents (of the peaks)."""
    table = json.loads(Path(path).read_text())
    setup = json.loads((Path(path).parent / table["setup"]).read_text())
    for old in table["cases"]:
        gap = old["gap_mm"] * 1e-3
        there = np.array(old["re_Pa_s_m3"]) + 1j * np.array(old["im_Pa_s_m3"])
        here = impedance(setup, gap, old["frequency_Hz"])
        found = peaks(setup, gap, len(old["peaks"]))
        ratio = [new["frequency_Hz"] / was["frequency_Hz"] for new, was in zip(found, old["peaks"])]
        height = [new["magnitude_Pa_s_m3"] / was["magnitude_Pa_s_m3"] for new, was in zip(found, old["peaks"])]
        print(f"gap {old['gap_mm']} mm: {np.abs(20 * np.log10(np.abs(here / there))).max():.1e} dB,",
              f"Z {np.abs(here / there - 1).max():.1e}, peaks {np.abs(1200 * np.log2(ratio)).max():.1e} cents,",
              f"{np.abs(20 * np.log10(height)).max():.1e} dB")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--check"]:
        check(sys.argv[2])
    else:
        make()
