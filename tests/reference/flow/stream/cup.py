"""Makes cup.csv with cup.edp (FreeFem++ must be installed): a few minutes of one core.

    python3 cup.py

The mouthpiece is the invented demo's, from its rim to its throat's end; its edge as drawn, and rounded to 1 mm.
"""
import json
import math
import subprocess
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
REYNOLDS = [320, 480, 960, 1453]
HEADER = """\
# What a steady stream loses of its power from a cup's rim to its throat's end, over its flow and half density U^2 of the throat.
# Made by cup.py with cup.edp: axisymmetric incompressible Navier-Stokes equations, Taylor-Hood finite elements
# (FreeFem++), flat profile at the rim. The demo's mouthpiece (invented); edge_radius_mm 0 is the edge as drawn. Re by the throat.
"""


def demo():
    profile = json.loads((HERE / "../../../../shared/demo.setup.json").read_text())["mouthpiece"]["profile"]
    narrow = min(diameter for _, diameter in profile)
    last = max(i for i, (_, diameter) in enumerate(profile) if diameter == narrow)
    return [(x, diameter / 2) for x, diameter in profile[:last + 1]]


def rounded(wall, radius, pieces=12):
    """The edge between the last slope and the throat, as an arc of that radius that touches both."""
    (x0, r0), (x1, r1), end = wall[-3:]
    angle = math.atan2(r0 - r1, x1 - x0)
    back = radius * math.tan(angle / 2)
    centre = (x1 + back, r1 + radius)
    arc = [(centre[0] - radius * math.sin(t), centre[1] - radius * math.cos(t))
           for t in (angle * (1 - k / pieces) for k in range(pieces + 1))]
    # the arc may begin above the last slope
    return [point for point in wall[:-2] if point[0] < arc[0][0] - 1e-9] + arc + [end]


def losses(wall):
    scale = wall[-1][1]
    entry = next(x for x, r in wall if r <= scale * (1 + 1e-9))
    text = f"{len(wall)}\n" + "\n".join(f"{x / scale} {r / scale}" for x, r in wall)
    text += f"\n{len(REYNOLDS)} {' '.join(map(str, REYNOLDS))}\n"
    with tempfile.NamedTemporaryFile("w", suffix=".txt") as file:
        file.write(text)
        file.flush()
        done = subprocess.run(["FreeFem++", "-nw", "-v", "0", "cup.edp", "-wall", file.name, "-throat-end",
                               str(wall[-1][0] / scale), "-throat-start", str(entry / scale), "-fine", "1.3"],
                              cwd=HERE, capture_output=True, text=True, check=True)
    return [float(line.split()[3]) for line in done.stdout.splitlines() if line.startswith("LOSS")]


if __name__ == "__main__":
    with open(HERE / "cup.csv", "w") as out:
        out.write(HEADER + "edge_radius_mm,reynolds,loss\n")
        for radius in (0, 1):
            wall = rounded(demo(), radius) if radius else demo()
            for reynolds, loss in zip(REYNOLDS, losses(wall)):
                out.write(f"{radius},{reynolds},{loss:.4g}\n")
                out.flush()
