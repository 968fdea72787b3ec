/** How much lower each peak gets from soft to loud, at both gaps: the edges take more of a faster stream. */
import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { LevelLoss, LevelMode } from "../../study/blown/levelLoss.ts";
import { PLAYED } from "../../study/change/verdicts.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteText } from "../../words/instruments.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import { add, type Drawing, type Frame, sheet, type Table, typeSizes } from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { END_LABEL_ROOM, endLabels } from "../kit/labels/endLabels.ts";
import { heading } from "../kit/labels/text.ts";
import { curve, referenceDash } from "../kit/marks/line.ts";
import { heightOf, label, type Panel, plotBox, silent, widthOf } from "../kit/panel.ts";
import { noteColumns, tableOf } from "../kit/table.ts";
import { marksIn, roundTicks, signedText } from "../kit/ticks.ts";
import { resonanceColour } from "../kit/tokens.ts";

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
  const plot = plotBox(frame, { left: 3.4 * small, right: END_LABEL_ROOM * small, top: rowAxis + 10 });
  const modes = chosen.modes.filter(isPlayed);
  const before = reference.modes.filter(isPlayed);
  const levels = modes[0]?.levels.map(({ levelDb }) => levelDb) ?? [];
  const heights = [...modes, ...before].flatMap((mode) => mode.levels.map(({ heightDb }) => heightDb ?? 0));
  const [low, high] = [Math.min(-0.1, ...heights), Math.max(0, ...heights)];
  const room = 0.06 * (high - low);
  const x = scaleLinear([levels[0] ?? 120, levels.at(-1) ?? 160], [plot.left, plot.right]);
  const y = scaleLinear([low - room, high + room], [plot.bottom, plot.top]);

  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  bottomAxis(ground, roundTicks(x, marksIn(widthOf(plot), 60, 2, 9)), "level at the rim, dB re 20 µPa");
  leftAxis(ground, roundTicks(y, marksIn(heightOf(plot), 36, 2, 7), signedText), true);
  heading(ground.parent, "Peaks from soft to loud", large);
  label(ground, "change of peak height, dB", 0, rowAxis, { fill: "muted" });
  label(ground, "note", frame.width - 2, rowAxis, { anchor: "end", fill: "muted" });

  const drawn = add(svg, "g", { "aria-hidden": "true", "stroke-linejoin": "round" });
  const through = ({ levels: points }: LevelMode) =>
    curve(
      points.map(({ levelDb }) => x(levelDb)),
      points.map(({ heightDb }) => (heightDb === null ? null : y(heightDb))),
    );
  for (const mode of modes)
    add(drawn, "path", {
      "data-resonance": `${mode.n}`,
      d: through(mode),
      stroke: resonanceColour(mode.n),
      "stroke-width": mode.n === highlight ? 3 : 1.5,
    });
  for (const mode of before)
    add(drawn, "path", {
      "data-reference": `${mode.n}`,
      d: through(mode),
      stroke: "reference",
      "stroke-dasharray": referenceDash,
    });
  // At the loud end, where the lines part.
  const ends = modes.flatMap(({ n, levels: points }) => {
    const last = points.at(-1)?.heightDb;
    return last == null ? [] : [{ n, x: plot.right, y: y(last) }];
  });
  endLabels({ ...ground, parent: drawn }, ends, highlight, frame.instrument);
  return { svg, x, y, plot };
}

export function levelTable(
  { reference, chosen }: LevelData,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table {
  const of = (name: string, { modes }: LevelLoss) =>
    modes.flatMap(({ n, levels }) => levels.map((level) => ({ name, n, ...level })));
  type Row = ReturnType<typeof of>[number];
  return tableOf(
    [...of("what if", chosen), ...of("compared with", reference)],
    [
      ["gap", ({ name }) => name],
      ...noteColumns<Row>(({ n }) => n, instrument),
      ["level (dB)", ({ levelDb }) => levelDb],
      ["peak (Hz)", ({ peakHz }) => peakHz],
      ["peak (Pa·s/m³)", ({ peakImpedance }) => peakImpedance],
      ["change of height (dB)", ({ heightDb }) => heightDb],
      ["by the gap alone, least (dB)", ({ gapAloneDb }) => gapAloneDb.lower],
      ["by the gap alone (dB)", ({ gapAloneDb }) => gapAloneDb.estimate],
      ["by the gap alone, most (dB)", ({ gapAloneDb }) => gapAloneDb.upper],
    ],
  );
}

function describe({ reference, chosen }: LevelData, { unit, instrument }: Frame): string {
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
    `From soft to ${here.levelDb} dB at the rim, ${noteText(here.n, instrument)} changes most: by ${signed(here.heightDb, 2)} dB at a gap of ` +
    `${bothUnits(chosen.gapMm, unit)}; at ${bothUnits(reference.gapMm, unit)}, compared with, ${noteText(there.n, instrument)} by ${signed(there.heightDb, 2)} dB. ` +
    `The gap's edges alone make at most ${signed(alone, 2)} dB of it.`
  );
}

export const levelFigure: Figure<LevelData> = {
  name: "height-against-level",
  label: "Height of each peak from soft to loud",
  about:
    "The air that swings through the throat and over the gap's edges loses energy as the square of its speed, so that a peak " +
    "is lower when loud. Solid: what if, a line a note; dashed: the gap it is compared with. The table also has what the gap's " +
    "edges alone do, by their three figures. Left out: steepening of loud waves, and the steady air flow beside the swinging one.",
  caption: () =>
    "Solid: what if. Dashed: the gap it is compared with. Where they cover each other, loudness makes no difference between them.",
  height: proportional(0.62, 300, 420),
  draw: levelChart,
  table: levelTable,
};
