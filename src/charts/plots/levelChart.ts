/** How much lower each peak gets from soft to loud, at both gaps: the edges take more of a faster stream. */
import { scaleLinear, ticks } from "d3";
import type { LevelLoss, LevelMode } from "../../study/blown/levelLoss.ts";
import { PLAYED } from "../../study/change/verdicts.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../kit/axes.ts";
import { corners, curvePath } from "../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  px,
  referenceDash,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { tickText } from "../kit/numbers.ts";
import { spread } from "../kit/spread.ts";
import { colour, resonanceColour } from "../kit/tokens.ts";

export interface LevelData {
  readonly reference: LevelLoss;
  readonly chosen: LevelLoss;
  /** Number of the resonance that stands out. */
  readonly highlight?: number;
}

const isPlayed = ({ n }: LevelMode): boolean => n >= PLAYED[0] && n <= PLAYED[1];

export function levelChart(data: LevelData, frame: Frame): Drawing {
  const { reference, chosen, highlight } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "level-chart",
    title: "Height of each peak from soft to loud",
    description: describe(data, frame),
  });
  const rowAxis = large + small + 12;
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 3.6 * small,
    top: rowAxis + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const modes = chosen.modes.filter(isPlayed);
  const before = reference.modes.filter(isPlayed);
  const levels = modes[0]?.levels.map(({ levelDb }) => levelDb) ?? [];
  const heights = [...modes, ...before].flatMap((mode) => mode.levels.map(({ heightDb }) => heightDb ?? 0));
  const [low, high] = [Math.min(-0.1, ...heights), Math.max(0, ...heights)];
  const room = 0.06 * (high - low);
  const x = scaleLinear([levels[0] ?? 120, levels.at(-1) ?? 160], [plot.left, plot.right]);
  const y = scaleLinear([low - room, high + room], [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  bottomAxis(
    ground,
    x,
    plot,
    ticks(...(x.domain() as [number, number]), clamp(Math.floor((plot.right - plot.left) / 60), 2, 9)).map(
      (value) => ({
        value,
        text: tickText(value),
      }),
    ),
    "level at the rim, dB re 20 µPa",
    small,
  );
  leftAxis(
    ground,
    y,
    plot,
    y
      .ticks(clamp(Math.floor((plot.bottom - plot.top) / 36), 2, 7))
      .map((value) => ({ value, text: tickText(value, true) })),
    small,
    true,
  );
  write(ground, "Peaks from soft to loud", 0, large, { size: large, weight: 600 });
  write(ground, "change of peak height, dB", 0, rowAxis, { size: small, fill: colour("muted") });
  write(ground, "resonance", frame.width - 2, rowAxis, { size: small, anchor: "end", fill: colour("muted") });

  const line = ({ levels: points }: LevelMode) =>
    curvePath(
      corners(
        points.map(({ levelDb }) => x(levelDb)),
        points.map(({ heightDb }) => (heightDb === null ? Number.NaN : y(heightDb))),
      ),
    );
  const drawn = add(svg, "g", { "aria-hidden": "true", "stroke-linejoin": "round" });
  for (const mode of modes)
    add(drawn, "path", {
      "data-resonance": `${mode.n}`,
      d: line(mode),
      stroke: resonanceColour(mode.n),
      "stroke-width": mode.n === highlight ? 3 : 1.5,
    });
  for (const mode of before)
    add(drawn, "path", {
      "data-reference": `${mode.n}`,
      d: line(mode),
      stroke: colour("reference"),
      "stroke-dasharray": referenceDash,
    });
  labelEnds();
  return { svg, x, y, plot };

  /** At the loud end, where the lines part. */
  function labelEnds(): void {
    const ends = modes
      .flatMap(({ n, levels: points }) => {
        const last = points.at(-1)?.heightDb;
        return last == null ? [] : [{ n, at: y(last) }];
      })
      .sort((a, b) => a.at - b.at);
    const places = spread(
      ends.map(({ at }) => at),
      small + 1,
      [plot.top, plot.bottom],
    );
    ends.forEach(({ n, at }, i) => {
      const elbow = plot.right + 0.9 * small;
      add(drawn, "path", {
        d: `M${px(plot.right)},${px(at)}L${px(elbow)},${px(places[i])}h4`,
        stroke: resonanceColour(n),
        "stroke-width": 0.75,
      });
      write(drawn, `${n}`, elbow + 7, places[i] + 0.36 * small, {
        size: small,
        weight: n === highlight ? 700 : 500,
      });
    });
  }
}

export const levelTable = ({ reference, chosen }: LevelData): Table => ({
  columns: [
    "gap",
    "resonance",
    "level (dB)",
    "peak (Hz)",
    "peak (Pa·s/m³)",
    "change of height (dB)",
    "by the gap alone, least (dB)",
    "by the gap alone (dB)",
    "by the gap alone, most (dB)",
  ],
  rows: (
    [
      ["chosen", chosen],
      ["reference", reference],
    ] as const
  ).flatMap(([name, { modes }]) =>
    modes.flatMap(({ n, levels }) =>
      levels.map(({ levelDb, peakHz, peakImpedance, heightDb, gapAloneDb }) => [
        name,
        n,
        levelDb,
        peakHz ?? "",
        peakImpedance ?? "",
        heightDb ?? "",
        gapAloneDb.lower ?? "",
        gapAloneDb.estimate ?? "",
        gapAloneDb.upper ?? "",
      ]),
    ),
  ),
});

function describe({ reference, chosen }: LevelData, { unit }: Frame): string {
  const loudest = ({ modes }: LevelLoss) =>
    modes.filter(isPlayed).flatMap(({ n, levels }) => {
      const last = levels.at(-1);
      return last && last.heightDb !== null
        ? [{ n, levelDb: last.levelDb, heightDb: last.heightDb, alone: last.gapAloneDb.estimate ?? 0 }]
        : [];
    });
  const lowest = (loss: LevelLoss) => loudest(loss).sort((a, b) => a.heightDb - b.heightDb)[0];
  const [here, there] = [lowest(chosen), lowest(reference)];
  if (!here || !there) return "No peak is left to compare.";
  const alone = Math.min(...loudest(chosen).map((one) => one.alone));
  return (
    `From soft to ${here.levelDb} dB at the rim, resonance ${here.n} changes most: by ${signed(here.heightDb, 2)} dB at a gap of ` +
    `${bothUnits(chosen.gapMm, unit)}; at the reference gap of ${bothUnits(reference.gapMm, unit)} resonance ${there.n} by ${signed(there.heightDb, 2)} dB. ` +
    `The gap's edges alone make at most ${signed(alone, 2)} dB of it.`
  );
}

export const levelFigure: Figure<LevelData> = {
  name: "height-against-level",
  label: "Height of each peak from soft to loud",
  about:
    "The air that swings through the throat and over the gap's edges loses energy as the square of its speed, so that a peak " +
    "is lower when loud. Solid: the chosen gap, a line a resonance; dashed: the reference. The table also has what the gap's " +
    "edges alone do, by their three figures. Left out: steepening of loud waves, and the steady stream beside the swinging one.",
  caption: () =>
    "Solid: the chosen gap. Dashed: the reference. Where they cover each other, loudness makes no difference between them.",
  height: proportional(0.62, 300, 420),
  draw: levelChart,
  table: levelTable,
};
