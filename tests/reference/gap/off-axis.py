"""Makes off-axis.csv: the inertance of the gap with the shank's exit off the axis of receiver and leadpipe.

    python3 off-axis.py             the table (seconds)
    python3 off-axis.py --check     more modes, and more of them round the axis, beside the table's own

Incompressible flow by mode matching: pipes with hard walls before and behind a straight cavity; modes of the off-axis pipe are
moved to the cavity's axis by Graf's addition theorem (Abramowitz & Stegun 9.1.79). NumPy and SciPy.
"""
import sys
from pathlib import Path

import numpy as np
from scipy.special import jnp_zeros, jv, jvp

HERE = Path(__file__).parent
SHANK, CAVITY, LEADPIPE = 4.2, 4.85, 4.375     # radii, mm
GAPS = [1.0, 2.5, 5.0]
OFF_AXIS = [0.0, 0.1, 0.2, 0.3]
HEADER = """\
# Inertance over density from the shank's exit to the leadpipe's edge, exit off the axis by so much; and of how much more gap on
# the axis it is worth. Radii: exit 4.2 mm, cavity 4.85 mm, leadpipe 4.375 mm (invented).
# Made by off-axis.py: incompressible flow by mode matching with Graf's addition theorem, NumPy and SciPy.
gap_mm,off_axis_mm,inertance_per_mm,as_gap_mm
"""


def modes(order, radius, count):
    """Wave numbers and factors that make the mean square 1, of cos(order angle) J_order; the plane mode comes first at order 0."""
    zeros = jnp_zeros(order, count) if count else np.empty(0)
    k = zeros / radius
    angular = 1.0 if order == 0 else 0.5
    factor = 1 / np.sqrt(angular * (1 - (order / zeros) ** 2) * jv(order, zeros) ** 2)
    return (np.r_[0, k], np.r_[1, factor]) if order == 0 else (k, factor)


def overlap(order, k_cavity, k_pipe, radius):
    """Integral of J(k_cavity r) J(k_pipe r) r over a pipe whose wall stops the second, rows by cavity modes."""
    a, b = k_cavity[:, None], k_pipe[None, :]
    with np.errstate(divide="ignore", invalid="ignore"):
        value = -radius * a * jvp(order, a * radius) * jv(order, b * radius) / (a**2 - b**2)
    same = np.abs(a - b) < 1e-12 * np.maximum(1, a + b)
    limit = radius**2 / 2 * (1 - (order / np.maximum(b * radius, 1e-300)) ** 2 if order else 1) * jv(order, b * radius) ** 2
    return np.where(same, limit, value)


def coupling(cavity, pipe, radius, off):
    """Means over the pipe's mouth of cavity mode times pipe mode, times mouth over cavity area: rows by cavity modes."""
    rows = []
    for m, (k, f) in enumerate(cavity):
        row = []
        for q, (kappa, g) in enumerate(pipe):
            moved = jv(m - q, k * off) if q == 0 else jv(m - q, k * off) + (-1) ** q * jv(m + q, k * off)
            angular = 2 * np.pi if q == 0 else np.pi
            row.append(angular * (f * moved)[:, None] * g[None, :] * overlap(q, k, kappa, radius))
        rows.append(np.hstack(row))
    return np.vstack(rows) / (np.pi * CAVITY**2)


def inertance(gap, off, count=80, orders=12):
    """Over density, 1/mm."""
    in_cavity = [modes(m, CAVITY, round(1.5 * count)) for m in range(orders)]
    in_shank = [modes(m, SHANK, count) for m in range(orders if off else 1)]
    in_lead = [modes(m, LEADPIPE, count) for m in range(orders if off else 1)]
    k = np.concatenate([one for one, _ in in_cavity])[1:]
    shank, lead = np.pi * SHANK**2, np.pi * LEADPIPE**2
    whole = np.pi * CAVITY**2
    M, N = coupling(in_cavity, in_shank, SHANK, off), coupling(in_cavity, in_lead, LEADPIPE, 0)
    ka = np.concatenate([one for one, _ in in_shank])[1:]
    kb = np.concatenate([one for one, _ in in_lead])[1:]
    coth, csch = 1 / np.tanh(k * gap) / k, 1 / np.sinh(np.minimum(k * gap, 700)) / k
    # what evanescent cavity modes press on each mouth, by the speeds at both
    aa = whole * M[1:].T @ (coth[:, None] * M[1:])
    ab = whole * M[1:].T @ (csch[:, None] * N[1:])
    bb = whole * N[1:].T @ (coth[:, None] * N[1:])
    speeds = np.r_[1 / shank, 1 / lead]
    left = np.block([[aa[1:, 1:] + shank * np.diag(1 / ka), -ab[1:, 1:]], [-ab.T[1:, 1:], bb[1:, 1:] + lead * np.diag(1 / kb)]])
    right = -np.r_[aa[1:, 0] * speeds[0] - ab[1:, 0] * speeds[1], bb[1:, 0] * speeds[1] - ab.T[1:, 0] * speeds[0]]
    found = np.linalg.solve(left, right)
    u = np.r_[speeds[0], found[: len(ka)]]
    v = np.r_[speeds[1], found[len(ka) :]]
    return gap / whole + (aa[0] @ u - ab[0] @ v) / shank + (bb[0] @ v - ab.T[0] @ u) / lead


def table():
    with open(HERE / "off-axis.csv", "w") as out:
        out.write(HEADER)
        for gap in GAPS:
            on_axis = inertance(gap, 0)
            per_mm = (inertance(gap + 0.01, 0) - inertance(gap - 0.01, 0)) / 0.02
            for off in OFF_AXIS:
                value = inertance(gap, off)
                out.write(f"{gap},{off},{value:.7f},{(value - on_axis) / per_mm:.4f}\n")


def check():
    for count, orders in ((80, 12), (120, 12), (80, 18), (80, 6)):
        on_axis, off_axis = (inertance(2.5, off, count, orders) for off in (0, 0.2))
        print(f"{count} modes, {orders} orders: {on_axis:.7f}, {off_axis:.7f}, {100 * (off_axis / on_axis - 1):.4f} %")


if __name__ == "__main__":
    check() if sys.argv[1:2] == ["--check"] else table()
