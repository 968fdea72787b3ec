"""Makes wilson.csv: 95 % Wilson score intervals by scipy.stats.binomtest(...).proportion_ci(method="wilson").

    python3 wilson.py
"""
from pathlib import Path

from scipy.stats import binomtest

rows = ["# 95 % Wilson score interval of count of of. Made by wilson.py: scipy.stats.binomtest.", "count,of,low,high"]
for count, of in [(0, 10), (1, 10), (5, 10), (10, 10), (8, 100), (33, 100), (37, 2000), (0, 2000)]:
    low, high = binomtest(count, of).proportion_ci(0.95, "wilson")
    rows.append(f"{count},{of},{low!r},{high!r}".replace("np.float64(", "").replace(")", ""))
Path(__file__).with_suffix(".csv").write_text("\n".join(rows) + "\n")
