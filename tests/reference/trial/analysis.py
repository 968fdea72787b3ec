"""Outside values for the statistics of blind trials: analysis.json.

friedmanchisquare, the F distribution and ICC(3,1)'s interval: SciPy. Permutation p: every order of every repeat counted by
itertools (the first repeat's too). Parabola with repeat effects: NumPy least squares on dummy variables.
shroutFleiss: their example of 6 targets and 4 judges (Psychol. Bull. 86, 1979, table 2), printed ICC(3,1) = .71.
Rounding first base (typed in the test): Hollander & Wolfe, Nonparametric Statistical Methods (1973), p. 140, as R's friedman.test documents it:
Friedman chi-squared = 11.143, df = 2, p-value = 0.003805.
"""
import itertools, json, math, os
import numpy as np, scipy
from scipy import stats

rng = np.random.default_rng(20)

def exact(blocks):
    blocks = np.asarray(blocks, float)
    stat = lambda b: (b.sum(0) ** 2).sum()
    seen = stat(blocks)
    orders = [list(itertools.permutations(row)) for row in blocks]
    hits = count = 0
    for one in itertools.product(*orders):
        count += 1
        totals = [sum(c) for c in zip(*one)]
        hits += sum(t * t for t in totals) >= seen - 1e-9 * (1 + seen)
    return hits / count

def icc(blocks):
    y = np.asarray(blocks, float).T  # items by repeats
    k, n = y.shape
    whole = y.mean()
    msi = n * ((y.mean(1) - whole) ** 2).sum() / (k - 1)
    res = y - y.mean(1, keepdims=True) - y.mean(0) + whole
    df = (n - 1) * (k - 1)
    msr = (res ** 2).sum() / df
    f = msi / msr
    lo, hi = f / stats.f.ppf(0.975, k - 1, df), f * stats.f.ppf(0.975, df, k - 1)
    return dict(standardDeviation=math.sqrt(msr), correlation=(msi - msr) / (msi + (n - 1) * msr),
                interval=[(lo - 1) / (lo + n - 1), (hi - 1) / (hi + n - 1)], pNormal=float(stats.f.sf(f, k - 1, df)))

def parabola(gaps, blocks):
    y = np.asarray(blocks, float)
    n, k = y.shape
    rows, rhs = [], []
    for r in range(n):
        for i in range(k):
            rows.append([float(r == q) for q in range(n)] + [gaps[i], gaps[i] ** 2]); rhs.append(y[r, i])
    c = np.linalg.lstsq(np.array(rows), np.array(rhs), rcond=None)[0]
    b1, b2 = c[-2:]
    fit = lambda g: float(np.mean(c[:n]) + b1 * g + b2 * g * g)
    means = y.mean(0)
    df = (n - 1) * (k - 1)
    msr = icc(blocks)["standardDeviation"] ** 2
    off = sum((means[i] - fit(gaps[i])) ** 2 for i in range(k))
    p = None if k == 3 else float(stats.f.sf(n * off / (k - 3) / msr, k - 3, df))
    return dict(vertexMm=float(-b1 / (2 * b2)), opensDown=bool(b2 < 0), atEnds=[fit(gaps[0]), fit(gaps[-1])], misfitP=p)

sets = []
for n, k, ties in [(4, 3, False), (3, 4, False), (4, 3, True), (2, 5, False), (3, 4, True), (6, 3, False), (6, 5, False), (8, 7, True)]:
    effect = np.linspace(0, 12, k) * (1 if k != 5 else -1)
    y = 50 + effect - 9 * (np.linspace(-1, 1, k) - 0.2) ** 2 + rng.normal(0, 9, (n, k))
    y = np.round(y / 10) * 10 if ties else np.round(y)
    blocks = y.tolist()
    fr = stats.friedmanchisquare(*np.array(blocks).T)
    gaps = [round(1 + 0.6 * i + 0.1 * (i == 1), 2) for i in range(k)]
    small = math.factorial(k) ** n <= 2_000_000
    sets.append(dict(blocks=blocks, gapsMm=gaps, chiSquare=float(fr.statistic), p=float(fr.pvalue),
                     exactP=exact(blocks) if small else None, repeatability=icc(blocks), parabola=parabola(gaps, blocks)))

quantiles = [[p, a, b, float(stats.f.ppf(p, a, b)), float(stats.f.cdf(1.7, a, b))]
             for p in (0.025, 0.5, 0.95, 0.975) for a, b in [(1, 1), (2, 3), (3, 9), (6, 78), (10, 2), (78, 6), (200, 150)]]

shrout = np.array([[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], float)

here = os.path.dirname(os.path.abspath(__file__))
with open(os.path.join(here, "analysis.json"), "w") as f:
    json.dump(dict(source=f"tests/reference/trial/analysis.py, SciPy {scipy.__version__}", sets=sets, fDistribution=quantiles,
                   shroutFleiss=icc(shrout.T)), f)
    f.write("\n")
