"""Makes two-way.json: rests, eigenvalues, thresholds and oscillations of lips that swing and stretch (Adachi & Sato 1996).

Nothing here is linearised by hand: the nonlinear equations of lips and air column are written once, as one real system in
[x, x', y, y', a1, b1, a2, b2, ...] with p_n = a_n + j b_n, p = 2 sum a_n. Its rest is found by scipy.optimize.root, its matrix
by complex steps (exact to rounding), its eigenvalues by LAPACK through numpy.linalg.eig, thresholds by brentq on the largest
real part after a scan of pressures; and it is integrated by scipy.integrate.solve_ivp (DOP853, relative tolerance 1e-9), the
mouth pressure rising from 0 as sin^2 over the first 5 ms. The invented column of stability.json.

    python3 two-way.py
"""
import json
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, root

here = Path(__file__).parent
column = json.loads((here / "stability.json").read_text())
POLES = np.array(column["poles"]).view(complex)
C = np.array(column["residues"]).view(complex)
RHO = column["density"]
LENGTH, CUP = 4e-3, 2.3e-4

USUAL = dict(massFactor=1.1, quality=6, protrusion=2.5e-3, restOpening=0.15e-3, width=7e-3, thickness=1.2e-3, stiffnessRatio=1)
LIPS = {
    "usual": USUAL,
    "upward": dict(USUAL, thickness=2e-3, protrusion=2e-3),
    "outward": dict(USUAL, thickness=0.4e-3, stiffnessRatio=1.25),
    "soft": dict(USUAL, quality=3, massFactor=1.5, restOpening=0.3e-3, stiffnessRatio=0.8),
}


def slope(state, lips, lip_hz, mouth):
    """d/dt of everything; complex states pass through, for the steps of the matrix, wherever nothing is closed."""
    x, vx, y, vy = state[:4]
    a, b_ = state[4::2], state[5::2]
    width, edge, q = lips["width"], lips["thickness"], lips["quality"]
    wx = 2 * np.pi * lip_hz
    wy = wx * np.sqrt(lips["stiffnessRatio"])
    mass = lips["massFactor"] / ((2 * np.pi) ** 2 * lip_hz)
    p = 2 * np.sum(a)
    drop = mouth - p
    sign = np.sign(np.real(drop)) if np.real(drop) != 0 else 1
    damping_x, damping_y, extra = wx / q, wy / q, 0
    jet, under = 0, p
    if np.real(y) > 0:
        area = 2 * width * y
        jet = sign * np.sqrt(2 * sign * drop / (RHO * (1 / area**2 - 2 / (area * CUP) + 2 / CUP**2)))
        under = p - RHO * (1 / (area * CUP) - 1 / CUP**2) * sign * jet * jet
    else:
        damping_x, damping_y, extra = wx * max(1 / q, 2), wy * max(1 / q, 2), 3 * wy**2 * y
    force_x = width * drop * (LENGTH - y)
    force_y = width * drop * x + 2 * width * edge * under
    u = jet + width * ((LENGTH - y) * vx + x * vy)
    out = np.empty_like(state)
    out[0], out[2] = vx, vy
    out[1] = force_x / mass - damping_x * vx - wx**2 * (x - lips["protrusion"])
    out[3] = force_y / mass - damping_y * vy - wy**2 * (y - lips["restOpening"] / 2) - extra
    out[4::2] = POLES.real * a - POLES.imag * b_ + C.real * u
    out[5::2] = POLES.imag * a + POLES.real * b_ + C.imag * u
    return out


def rest(lips, lip_hz, mouth):
    """The state in which nothing changes; the column's follows from the flow."""
    steady = C / -POLES

    def whole(x, y, u):
        s = np.zeros(4 + 2 * len(POLES))
        s[0], s[2] = x, y
        s[4::2], s[5::2] = (steady * u).real, (steady * u).imag
        return s

    resistance = 2 * np.sum(steady).real

    def miss(z):
        x, y, u = z[0] * 1e-3, np.exp(z[1]) * 1e-3, np.exp(z[2]) * 1e-6
        area = 2 * lips["width"] * y
        drop = mouth - resistance * u
        law = 0.5 * RHO * u * u * (1 / area**2 - 2 / (area * CUP) + 2 / CUP**2)
        d = slope(whole(x, y, u), lips, lip_hz, mouth)
        w2 = (2 * np.pi * lip_hz) ** 2
        return [d[1] / w2 * 1e3, d[3] / w2 * 1e3, law / mouth - drop / mouth]

    y0 = lips["restOpening"] / 2 + 0.1e-3
    u0 = 2 * lips["width"] * y0 * np.sqrt(2 * mouth / RHO)
    found = root(miss, [lips["protrusion"] * 1e3, np.log(y0 * 1e3), np.log(u0 * 1e6)], method="lm", options=dict(xtol=1e-15, ftol=1e-15))
    assert np.max(np.abs(found.fun)) < 1e-11, (lips, lip_hz, mouth, found)
    x, y, u = found.x[0] * 1e-3, np.exp(found.x[1]) * 1e-3, np.exp(found.x[2]) * 1e-6
    return whole(x, y, u), u


def eigenvalues(lips, lip_hz, mouth):
    state, _ = rest(lips, lip_hz, mouth)
    n = len(state)
    matrix = np.empty((n, n))
    for k in range(n):
        step = 1e-30 * 1j
        moved = state.astype(complex)
        moved[k] += step
        matrix[:, k] = slope(moved, lips, lip_hz, mouth).imag / 1e-30
    return np.linalg.eig(matrix)[0]


def growth(lips, lip_hz, mouth):
    values = eigenvalues(lips, lip_hz, mouth)
    return np.max(values.real)


def first_threshold(lips, lip_hz):
    grid = np.geomspace(50, 6e4, 120)
    grows = [growth(lips, lip_hz, p) for p in grid]
    for a, b, ga, gb in zip(grid, grid[1:], grows, grows[1:]):
        if ga < 0 <= gb:
            mouth = brentq(lambda p: growth(lips, lip_hz, p), a, b, xtol=1e-7, rtol=1e-11)
            values = eigenvalues(lips, lip_hz, mouth)
            return dict(pressure=mouth, frequency=np.max(np.abs(values[np.argmax(values.real)].imag)) / (2 * np.pi))
    return None


RISE = 5e-3


def played(name, lip_hz, mouth, seconds):
    lips = LIPS[name]
    start = np.zeros(4 + 2 * len(POLES))
    start[0], start[2] = lips["protrusion"], lips["restOpening"] / 2
    scale = np.full(start.shape, 1e-6)
    scale[[0, 2]] = 1e-13
    scale[[1, 3]] = 1e-10
    rate = 20000
    t = np.arange(int(seconds * rate) + 1) / rate
    right = lambda t, s: slope(s, lips, lip_hz, mouth * np.sin(np.pi * min(t / RISE, 1) / 2) ** 2)
    found = solve_ivp(right, (0, t[-1]), start, "DOP853", t, rtol=1e-9, atol=scale, max_step=2e-4).y
    first = 2 * np.sum(found[4::2], axis=0)[: 40 * rate // 1000 + 1 : rate // 1000]
    y = found[2, -rate // 5 :]
    y = y - y.mean()
    up = np.flatnonzero((y[:-1] < 0) & (y[1:] >= 0))
    crossings = up + y[up] / (y[up] - y[up + 1])
    frequency = (len(crossings) - 1) / (crossings[-1] - crossings[0]) * rate
    return dict(lips=name, rise=RISE, lipHz=lip_hz, mouthPressure=mouth, seconds=seconds, pressureEveryMs=first.tolist(), frequency=frequency)


def pairs(values):
    return [x for v in values for x in (float(v.real), float(v.imag))]


if __name__ == "__main__":
    cases = []
    for name, lips in LIPS.items():
        for lip_hz in (223, 465, 901):
            for mouth in (500, 3000, 12000):
                state, u = rest(lips, lip_hz, mouth)
                values = eigenvalues(lips, lip_hz, mouth)
                values = values[np.lexsort((values.real, values.imag))]
                cases.append(dict(lips=name, lipHz=lip_hz, mouthPressure=mouth, opening=2 * state[2], swing=state[0], flow=u, eigenvalues=pairs(values)))
    print("eigenvalues", flush=True)
    thresholds = []
    for name, lips in LIPS.items():
        for lip_hz in (223, 345, 465, 600, 720, 931):
            thresholds.append(dict(lips=name, lipHz=lip_hz, **(first_threshold(lips, lip_hz) or dict(pressure=None, frequency=None))))
    print("thresholds", flush=True)
    times = [played("usual", 465, 4000, 0.5), played("usual", 931, 9000, 0.4), played("upward", 465, 3000, 0.5)]
    Path(__file__).with_suffix(".json").write_text(
        json.dumps(
            dict(
                about="Made by two-way.py: numpy.linalg.eig of the complex-step matrix, scipy root, brentq and solve_ivp (DOP853). SI.",
                lips=LIPS,
                cases=cases,
                thresholds=thresholds,
                times=times,
            ),
            indent=1,
        )
        + "\n"
    )
