"""Writes src/flow/gapStreamTable.ts: the steady stream across the gap, for a drawing, with gap.edp (FreeFem++ must be installed).

    python3 gap-picture.py

Speed over the mean speed of the bore, and the stream function over its value at the wall, in whole parts of SCALE and STREAM_SCALE, on a lattice
that is fine where the stream changes; the stream function by integrating u r inwards from the wall, where it is 1.
"""
import math
import tempfile
from pathlib import Path

from importlib.util import module_from_spec, spec_from_file_location

HERE = Path(__file__).parent
TARGET = HERE / "../../../../src/flow/gapStreamTable.ts"
GAPS = [0.12, 0.3, 0.6]
REYNOLDS = [800, 3200]
PROFILE = 6
SCALE, STREAM_SCALE = 1000, 50000
BEFORE, BEHIND = 0.5, 1.1
# radii from the axis: the wall of the bores, 1, and of the cavity, 1.15, among them
RADII = [0, .2, .4, .55, .66, .75, .82, .87, .905, .93, .95, .965, .98, .99, 1, 1.01, 1.02, 1.035, 1.05, 1.07, 1.09, 1.11, 1.13, 1.15]
SUBDIVIDED = 12

spec = spec_from_file_location("gap_stream", HERE / "gap.py")
gap_stream = module_from_spec(spec)
spec.loader.exec_module(gap_stream)


def stations(gap):
    """Along the bore, radii; densest about both edges, which are among them."""
    steps = [.012, .012, .018, .025, .035, .05, .07, .1, .1, .1, .12, .15, .2, .2]

    def outwards(limit):
        at, places = 0, []
        for step in steps:
            if at + step > limit + 1e-9:
                break
            at += step
            places.append(at)
        return places + [limit] if not places or places[-1] < limit - 1e-9 else places

    half = outwards(gap / 2)
    inside = sorted({round(x, 5) for x in half} | {round(gap - x, 5) for x in half})
    return [*(round(-x, 5) for x in reversed(outwards(BEFORE))), 0, *(x for x in inside if 0 < x < gap), gap,
            *(round(gap + x, 5) for x in outwards(BEHIND))]


def finer(radii):
    return [low + (high - low) * k / SUBDIVIDED for low, high in zip(radii, radii[1:]) for k in range(SUBDIVIDED)] + [radii[-1]]


def case(gap, reynolds):
    xs, rs = stations(gap), finer(RADII)
    with tempfile.TemporaryDirectory() as folder:
        lattice, picture = Path(folder, "lattice"), Path(folder, "picture")
        lattice.write_text(f"{len(xs)} {' '.join(map(str, xs))}\n{len(rs)} {' '.join(map(repr, rs))}\n")
        # Re rises step by step, so that Newton's method finds its way; the picture is of the last
        ladder = [r for r in gap_stream.REYNOLDS if r < reynolds] + [reynolds]
        gap_stream.run(gap, PROFILE, ladder, [], False, "-lattice", lattice, "-picture", picture)
        flow = [tuple(map(float, line.split())) for line in picture.read_text().splitlines()]
    speed, stream = [], []
    for i, x in enumerate(xs):
        column = flow[i * len(rs):(i + 1) * len(rs)]
        wall = gap_stream.CAVITY if 0 < x < gap else 1
        # from the wall inwards: what turns back in the gap is less than a hundredth of what passes
        beyond, streams = 0, [1.0] * len(rs)
        for j in reversed(range(len(rs) - 1)):
            if rs[j + 1] <= wall + 1e-9:
                beyond += (column[j + 1][0] * rs[j + 1] + column[j][0] * rs[j]) * (rs[j + 1] - rs[j]) / 2
            streams[j] = 1 - 2 * beyond
        assert abs(streams[0]) < 0.004, (gap, reynolds, x, streams[0])
        streams[0] = 0
        speed.append([round(SCALE * math.hypot(*column[j])) for j in range(0, len(rs), SUBDIVIDED)])
        stream.append([round(STREAM_SCALE * streams[j]) for j in range(0, len(rs), SUBDIVIDED)])
    return xs, speed, stream


def text(rows):
    return ["    \"" + " ".join(map(str, row)) + "\"," for row in rows]


def main():
    lines = f"""/**
 * The steady laminar stream across a gap between two equal bores, by the Navier-Stokes equations in finite elements: made by
 * tests/reference/flow/stream/gap-picture.py, to be read through `gapStream.ts`. Lengths in radii of the bore from the shank's end along
 * the axis and from the axis outwards; a line of numbers is of one place along it.
 */
export const CAVITY_RADIUS = {gap_stream.CAVITY};
export const SPEED_SCALE = {SCALE};
export const STREAM_SCALE = {STREAM_SCALE};
/** m of the profile u ~ 1 - r^m that comes in. */
export const FULLNESS = {PROFILE};
export const RADII: readonly number[] = {RADII};

export interface StreamCase {{
  readonly gapOverDiameter: number;
  readonly reynolds: number;
  readonly along: readonly number[];
  /** SPEED_SCALE times the speed over the bore's mean speed, at every radius. */
  readonly speed: readonly string[];
  /** STREAM_SCALE times the stream function over its value at the wall. */
  readonly stream: readonly string[];
}}

// biome-ignore format: a line a place
export const CASES: readonly StreamCase[] = [""".splitlines()
    for gap in GAPS:
        for reynolds in REYNOLDS:
            xs, speed, stream = case(2 * gap, reynolds)
            lines += ["  {", f"    gapOverDiameter: {gap}, reynolds: {reynolds},", f"    along: {xs},", "    speed: [", *text(speed), "    ],",
                      "    stream: [", *text(stream), "    ],", "  },"]
            print(gap, reynolds, len(xs), max(max(row) for row in stream), flush=True)
    TARGET.write_text("\n".join([*lines, "];", ""]))


if __name__ == "__main__":
    main()
