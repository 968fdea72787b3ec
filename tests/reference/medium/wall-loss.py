"""Makes wall-loss.csv: F(r_v) = 2 J1(z)/(z J0(z)), z = r_v sqrt(-j), with mpmath at 40 digits.

    python3 wall-loss.py
"""
from pathlib import Path

from mpmath import mp, mpc, mpf, besselj, sqrt, power, nstr

mp.dps = 40
HEADER = """\
# Zwikker-Kosten wall-loss function F = 2 J1(z)/(z J0(z)), z = r_v sqrt(-j), r_v = radius*sqrt(omega*density/viscosity).
# Made by wall-loss.py (mpmath, 40 digits). First real r_v, then complex ones: the argument of omega is that of 1 + j/(2Q),
# as for a free decay of quality Q under e^(+j omega t), Q = 3, 10, 50. r_v is exactly the decimal number written.
"""


def F(r_v):
    z = r_v * sqrt(mpc(0, -1))
    return 2 * besselj(1, z) / (z * besselj(0, z))


def decimal(x, digits=8):
    return mpf(nstr(x, digits))


N = 30
real = [decimal(power(10, -2 + mpf(i) / (N - 1) * mp.log10(mpf(300000)))) for i in range(N)]
sizes = [mpf(s) for s in ("0.3", "0.7", "1.5", "3", "6", "12", "25", "50", "120", "300")]


def damped(size, Q):
    r_v = size * sqrt(mpc(1, mpf(1) / (2 * Q)))
    r_v *= size / abs(r_v)
    return mpc(decimal(r_v.real), decimal(r_v.imag))


rows = [mpc(r) for r in real] + [damped(size, Q) for Q in (3, 10, 50) for size in sizes]

with open(Path(__file__).with_suffix(".csv"), "w") as out:
    out.write(HEADER + "r_v_re,r_v_im,re,im\n")
    for r_v in rows:
        f = F(r_v)
        out.write(",".join(nstr(x, 17) for x in (r_v.real, r_v.imag, f.real, f.imag)) + "\n")
