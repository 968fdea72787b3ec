"""Values and derivatives of clamped cubic B-splines with even breaks, from scipy.interpolate.BSpline, for designSpline.ts.

Length 240 mm, control diameters as in the rows' head; written to spline.csv.
"""
import numpy as np
from scipy.interpolate import BSpline

LENGTH = 240.0
CONTROLS = [8.75, 8.9, 9.4, 9.1, 10.8, 11.2, 11.68]

breaks = np.linspace(0, LENGTH, len(CONTROLS) - 2)
knots = np.concatenate([[0] * 3, breaks, [LENGTH] * 3])
spline = BSpline(knots, CONTROLS, 3)
with open("spline.csv", "w") as out:
    out.write(f"# scipy.interpolate.BSpline, clamped cubic, length {LENGTH} mm, controls {CONTROLS}\n")
    out.write("x_mm,d_mm,slope,second_per_mm\n")
    for x in np.linspace(0, LENGTH, 25):
        out.write(f"{x!r},{float(spline(x))!r},{float(spline(x, 1))!r},{float(spline(x, 2))!r}\n".replace("np.float64(", "").replace(")", ""))
