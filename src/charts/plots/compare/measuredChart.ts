/** A measured impedance over the model's, in decibels, so that troughs count as peaks do. */

import { max, min, scaleLinear, scaleLog } from "d3";
import { noteLabel } from "../../../words/instruments.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  rule,
  sheet,
  type Table,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { drawKey, type KeyItem } from "../../kit/labels/key.ts";
import { heading } from "../../kit/labels/text.ts";
import { curve, referenceDash } from "../../kit/marks/line.ts";
import { tickText } from "../../kit/numbers.ts";
import { label, type Panel, plotBox, silent } from "../../kit/panel.ts";
import { type Column, tableOf } from "../../kit/table.ts";
import { roundTicks, ticksAt } from "../../kit/ticks.ts";

export interface MeasuredChartData {
  /** Hz, rising. */
  readonly frequencies: Float64Array;
  /** |Z| in Pa·s/m³, or as high as the model in the mean where the unit is unknown. */
  readonly measured: Float64Array;
  readonly model: Float64Array;
  /** The model as it was fitted; null before. */
  readonly fitted: Float64Array | null;
  /** Root mean square of the difference from the model, and from the fitted one, dB. */
  readonly apartDb: number;
  readonly fittedDb: number | null;
  /** Peaks of the model, to number them. */
  readonly peaks: readonly { readonly n: number; readonly hz: number }[];
}

const unitPa = 1e6;
const allTicks = [20, 50, 100, 200, 300, 500, 700, 1000, 1500, 2000, 3000, 5000];
const keyStyle = { sample: 30, apart: 16 };
/** A deep trough is not allowed to flatten the peaks. */
const dbShown = 60;

/** In drawing order: the measurement in ink below, what is held against it above. */
function linesOf({ measured, model, fitted }: MeasuredChartData): (KeyItem & { values: Float64Array })[] {
  const dashed = { stroke: "reference", "stroke-width": 1.75, "stroke-dasharray": referenceDash } as const;
  const fit = { text: "fitted", weight: 500, line: { stroke: "gap", "stroke-width": 1.5 } } as const;
  return [
    { text: "measured", weight: 500, values: measured, line: { stroke: "ink", "stroke-width": 3.5 } },
    { text: "model", weight: 500, values: model, line: dashed },
    ...(fitted ? [{ ...fit, values: fitted }] : []),
  ];
}

export const measuredChartHeight = (width: number): number => clamp(0.42 * width, 280, 420);

export function measuredChart(data: MeasuredChartData, frame: Frame): Drawing {
  const { frequencies, peaks } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "measured-chart",
    title: "Measured input impedance over the model's",
    description: describe(data),
  });
  const keyRow = large + small + 8;
  const axisRow = keyRow + small + 8;
  const plot = plotBox(frame, { left: 3.4 * small, right: 8, top: axisRow + small + 10 });
  const db = (pa: number) => 20 * Math.log10(pa / unitPa);
  const lines = linesOf(data);
  const inDb = lines.map(({ values }) => Float64Array.from(values, db));
  const [highest, lowest] = [max(inDb, (values) => max(values))!, min(inDb, (values) => min(values))!];
  const x = scaleLog([frequencies[0], frequencies[frequencies.length - 1]], [plot.left, plot.right]);
  const y = scaleLinear([Math.max(lowest - 1, highest - dbShown), highest + 3], [plot.bottom, plot.top]);

  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  heading(ground.parent, "Measured and modelled impedance", large);
  drawKey(ground, lines, 0, keyRow, keyStyle);
  label(ground, "|Z|, dB re 1 MPa·s/m³", 0, axisRow, { fill: "muted" });
  leftAxis(ground, roundTicks(y, 6), true);
  const [low, high] = x.domain();
  const marks = apart(
    allTicks.filter((hz) => hz >= low && hz <= high),
    x,
    3 * small,
  );
  bottomAxis(ground, ticksAt(marks), "frequency, Hz");
  const inside = peaks.filter(({ hz }) => x(hz) >= plot.left && x(hz) <= plot.right);
  for (const { n, hz } of apart(inside, (peak) => x(peak.hz), 2.6 * small)) {
    label(ground, noteLabel(n, frame.instrument), x(hz), plot.top - 4, { anchor: "middle", weight: 500 });
    rule(ground.parent, [x(hz), plot.top], [x(hz), plot.top + 5], "ink");
  }
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  const xs = Float64Array.from(frequencies, (hz) => x(hz));
  lines.forEach(({ text, line: style }, i) => {
    const ys = inDb[i].map((value) => clamp(y(value), plot.top, plot.bottom));
    add(curves, "path", { "data-part": text, d: curve(xs, ys), ...style });
  });
  return { svg, x, y, plot };
}

/** Those that stand far enough from the one before that is kept. */
function apart<T>(items: readonly T[], at: (item: T) => number, least: number): T[] {
  const kept: T[] = [];
  for (const item of items) {
    const last = kept.at(-1);
    if (last === undefined || at(item) - at(last) >= least) kept.push(item);
  }
  return kept;
}

export const measuredChartTable = ({ frequencies, measured, model, fitted }: MeasuredChartData): Table =>
  tableOf(Array.from(frequencies), [
    ["frequency (Hz)", (hz) => hz],
    ["|Z| measured (Pa·s/m³)", (_, i) => measured[i]],
    ["|Z| model (Pa·s/m³)", (_, i) => model[i]],
    ...(fitted ? [["|Z| fitted (Pa·s/m³)", (_, i) => fitted[i]] satisfies Column<number>] : []),
  ]);

function describe({ frequencies, apartDb, fittedDb }: MeasuredChartData): string {
  const [from, to] = [frequencies[0], frequencies[frequencies.length - 1]];
  const fitted = fittedDb === null ? "" : `, from the fitted one by ${fittedDb.toPrecision(2)} dB`;
  return (
    `|Z| at ${frequencies.length} frequencies from ${tickText(from)} to ${tickText(to)} Hz. The measurement is apart from the model by ` +
    `${apartDb.toPrecision(2)} dB root mean square${fitted}.`
  );
}

export const measuredFigure: Figure<MeasuredChartData> = {
  name: "measured-impedance",
  label: "Measured impedance over the model's",
  about:
    "How strongly the instrument answers at the mouthpiece's rim, as measured and as modelled, in decibels, so that troughs count as " +
    "peaks do. Where the measurement's unit is unknown it is put as high as the model in the mean. Peaks are named by the notes they are played for.",
  caption: (data) =>
    `Ink: the measurement. Dashed blue: the model as the setup has it.${data?.fitted ? " Orange: the model with what was fitted." : ""}`,
  height: measuredChartHeight,
  draw: measuredChart,
  table: measuredChartTable,
};
