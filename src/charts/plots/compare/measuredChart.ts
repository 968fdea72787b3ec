/** A measured impedance over the model's, in decibels, so that troughs count as peaks do. */
import { scaleLinear, scaleLog } from "d3";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import { corners, curvePath } from "../../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  referenceDash,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

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
const samplePx = 30;
/** A deep trough is not allowed to flatten the peaks. */
const dbShown = 60;

type Line = { readonly name: string; readonly values: Float64Array; readonly stroke: LineStroke };
interface LineStroke {
  readonly stroke: string;
  readonly "stroke-width": number;
  readonly "stroke-dasharray"?: string;
}

/** In drawing order: the measurement in ink below, what is held against it above. */
const linesOf = ({ measured, model, fitted }: MeasuredChartData): Line[] => [
  { name: "measured", values: measured, stroke: { stroke: colour("ink"), "stroke-width": 3.5 } },
  {
    name: "model",
    values: model,
    stroke: { stroke: colour("reference"), "stroke-width": 1.75, "stroke-dasharray": referenceDash },
  },
  ...(fitted
    ? [{ name: "fitted", values: fitted, stroke: { stroke: colour("gap"), "stroke-width": 1.5 } }]
    : []),
];

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
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 8,
    top: axisRow + small + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const db = (pa: number) => 20 * Math.log10(pa / unitPa);
  const lines = linesOf(data);
  const inDb = lines.map(({ values }) => Float64Array.from(values, db));
  const highest = inDb.reduce((most, values) => values.reduce((a, b) => Math.max(a, b), most), -Infinity);
  const lowest = inDb.reduce((least, values) => values.reduce((a, b) => Math.min(a, b), least), Infinity);
  const x = scaleLog([frequencies[0], frequencies[frequencies.length - 1]], [plot.left, plot.right]);
  const y = scaleLinear([Math.max(lowest - 1, highest - dbShown), highest + 3], [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  write(ground, "Measured and modelled impedance", 0, large, { size: large, weight: 600 });
  let left = 0;
  for (const { name, stroke } of lines) {
    add(ground, "line", {
      x1: left,
      y1: keyRow - 0.33 * small,
      x2: left + samplePx,
      y2: keyRow - 0.33 * small,
      ...stroke,
    });
    write(ground, name, left + samplePx + 6, keyRow, { size: small, weight: 500 });
    left += samplePx + 6 + textWidth(name, small) + 16;
  }
  write(ground, "|Z|, dB re 1 MPa·s/m³", 0, axisRow, { size: small, fill: colour("muted") });
  const ticks = y.ticks(6).map((value) => ({ value, text: tickText(value) }));
  leftAxis(ground, y, plot, ticks, small, true);
  let last = Number.NEGATIVE_INFINITY;
  const shown = allTicks.filter((hz) => {
    if (hz < x.domain()[0] || hz > x.domain()[1] || x(hz) - last < 3 * small) return false;
    last = x(hz);
    return true;
  });
  bottomAxis(
    ground,
    x,
    plot,
    shown.map((value) => ({ value, text: tickText(value) })),
    "frequency, Hz",
    small,
  );
  let labelled = Number.NEGATIVE_INFINITY;
  for (const { n, hz } of peaks) {
    const at = x(hz);
    if (at < plot.left || at > plot.right || at - labelled < 1.6 * small) continue;
    labelled = at;
    write(ground, `${n}`, at, plot.top - 4, { size: small, anchor: "middle", weight: 500 });
    rule(ground, [at, plot.top], [at, plot.top + 5], colour("ink"));
  }
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  const xs = Float64Array.from(frequencies, (hz) => x(hz));
  lines.forEach(({ name, stroke }, i) => {
    const ys = inDb[i].map((value) => clamp(y(value), plot.top, plot.bottom));
    add(curves, "path", { "data-part": name, d: curvePath(corners(xs, ys)), ...stroke });
  });
  return { svg, x, y, plot };
}

export const measuredChartTable = ({ frequencies, measured, model, fitted }: MeasuredChartData): Table => ({
  columns: [
    "frequency (Hz)",
    "|Z| measured (Pa·s/m³)",
    "|Z| model (Pa·s/m³)",
    ...(fitted ? ["|Z| fitted (Pa·s/m³)"] : []),
  ],
  rows: Array.from(frequencies, (hz, i) => [hz, measured[i], model[i], ...(fitted ? [fitted[i]] : [])]),
});

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
    "peaks do. Where the measurement's unit is unknown it is put as high as the model in the mean. The numbers are the model's resonances.",
  caption: (data) =>
    `Ink: the measurement. Dashed blue: the model as the setup has it.${data?.fitted ? " Orange: the model with what was fitted." : ""}`,
  height: measuredChartHeight,
  draw: measuredChart,
  table: measuredChartTable,
};
