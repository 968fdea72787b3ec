"""Makes student-t.csv (quantiles) and chi-square.csv (upper tails), with mpmath to 30 digits: the regularised incomplete beta
and gamma functions, the quantile by root finding.

    python3 distributions.py
"""
from pathlib import Path

from mpmath import betainc, findroot, gammainc, mp, mpf, nstr

mp.dps = 30
here = Path(__file__).parent

def t_quantile(p, v):
    tail = lambda t: betainc(mpf(v) / 2, mpf(1) / 2, 0, mpf(v) / (mpf(v) + t * t), regularized=True) / 2
    from scipy.stats import t as student
    return findroot(lambda x: tail(x) - (1 - mpf(p)), mpf(float(student.ppf(float(p), float(v)))))

rows = ["# Quantiles of Student's t. Made by distributions.py: mpmath betainc and findroot.", "probability,degrees,quantile"]
for v in ["1", "1.5", "2", "3", "4.7", "8", "16", "19", "30.25", "100", "1000", "100000"]:
    for p in ["0.75", "0.975", "0.995", "0.9995"]:
        rows.append(f"{p},{v},{nstr(t_quantile(p, v), 17)}")
(here / "student-t.csv").write_text("\n".join(rows) + "\n")

rows = ["# P(chi-square > value). Made by distributions.py: mpmath gammainc.", "value,degrees,tail"]
for k in [1, 2, 3, 4, 5, 9, 20]:
    for x in ["0.01", "0.5", "2", "6", "11.143", "30"]:
        rows.append(f"{x},{k},{nstr(gammainc(mpf(k) / 2, mpf(x) / 2, regularized=True), 17)}")
(here / "chi-square.csv").write_text("\n".join(rows) + "\n")
