"""Makes flare.csv: reflection at the start of the demo bell's flare, by finite elements (FreeFem++ and SciPy).

    python3 flare.py            writes flare.csv (some minutes)
"""
import json
import subprocess
import tempfile
from pathlib import Path

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu

HERE = Path(__file__).parent
DEMO = HERE / "../../../shared/demo.setup.json"
START_MM = 717.56  # position in the body
SOUND_SPEED = 345.0
LOW, HIGH, LAST = 40.0, 2000.0, 24  # Chebyshev points, so that R can be interpolated

HEADER = """\
# Reflection coefficient of pressure R of the plane wave at the start of the flare ({start} mm into the body) of the demo's
# bell, without losses, sound speed 345 m/s, e^(+jwt). Made by flare.py: axisymmetric P2 finite elements (FreeFem++ for
# the matrices, SciPy's SuperLU to solve them), perfectly matched layer outside a sphere. Bell in free space with a wall of
# 0.5 mm along the radius and its pipe going on backwards; and the same mouth in an infinite hard wall.
# Elements of 0.6 times the size, sphere 0.5 m instead of 0.4 m change R by at most {free:.1e} (free) and {flanged:.1e} (flanged).
# Frequencies: Chebyshev points of {low:g} to {high:g} Hz.
"""


def profile():
    points = np.array(json.loads(DEMO.read_text())["body"]["profile"])
    points = points[points[:, 0] >= START_MM]
    return (points[:, 0] - points[-1, 0]) / 1e3, points[:, 1] / 2e3


def read(path):
    rows = []
    for line in open(path):
        words = line.replace("(", " ").replace(")", " ").replace(",", " ").split()
        if len(words) == 4 and not line.startswith("#"):
            rows.append([float(word) for word in words])
    return np.array(rows)


def matrix(path, size=None):
    rows = read(path)
    i, k = rows[:, 0].astype(int), rows[:, 1].astype(int)
    size = size or max(i.max(), k.max()) + 1
    return coo_matrix((rows[:, 2] + 1j * rows[:, 3], (i, k)), shape=(size, size)).tocsc()


def vector(path):
    words = open(path).read().replace("(", " ").replace(")", " ").replace(",", " ").split()
    values = np.array([float(word) for word in words[1:]])
    return values[0::2] + 1j * values[1::2]


def reflection(frequencies, flange, size=1.0, sphere=0.4):
    x, a = profile()
    with tempfile.TemporaryDirectory() as folder:
        bell = Path(folder) / "bell.txt"
        bell.write_text(f"{len(x)}\n" + "".join(f"{u:.9g} {v:.9g}\n" for u, v in zip(x, a)))
        options = {"-profile": bell, "-out": Path(folder) / "m", "-flange": flange, "-size": size, "-sphere": sphere}
        subprocess.run(["FreeFem++", "-nw", "-v", "0", str(HERE / "flare.edp"),
                        *[str(text) for pair in options.items() for text in pair]], check=True, stdout=subprocess.DEVNULL)
        stiffness = matrix(f"{folder}/m.stiffness")
        n = stiffness.shape[0]
        mass, inlet, rhs = matrix(f"{folder}/m.mass", n), matrix(f"{folder}/m.inlet", n), vector(f"{folder}/m.rhs")
    weight = a[0] ** 2 / 2  # the inlet's means are over 2/a^2
    values = []
    for f in frequencies:
        k = 2 * np.pi * f / SOUND_SPEED
        p = splu((stiffness - k**2 * mass + 1j * k * weight * inlet).tocsc()).solve(2j * k * weight * rhs)
        # at the inlet, a cylinder of 2a before the flare
        values.append((rhs @ p - 1) * np.exp(2j * k * 2 * a[0]))
    print(f"flange {flange}, size {size}, sphere {sphere}: {n} unknowns", flush=True)
    return np.array(values)


def main():
    frequencies = (LOW + HIGH) / 2 + (HIGH - LOW) / 2 * np.cos(np.pi * np.arange(LAST + 1) / LAST)
    free, flanged = reflection(frequencies, 0, 0.6, 0.5), reflection(frequencies, 1, 0.6, 0.5)
    errors = [np.abs(fine - reflection(frequencies, flange)).max() for flange, fine in ((0, free), (1, flanged))]
    with open(HERE / "flare.csv", "w") as out:
        out.write(HEADER.format(start=START_MM, free=errors[0], flanged=errors[1], low=LOW, high=HIGH))
        out.write("frequency_Hz,re_free,im_free,re_flanged,im_flanged\n")
        for f, r, s in zip(frequencies, free, flanged):
            out.write(f"{f:.10g},{r.real:.7f},{r.imag:.7f},{s.real:.7f},{s.imag:.7f}\n")


if __name__ == "__main__":
    main()
