/** |Z| of several variants over one another: all of the range, or the neighbourhood of one resonance. */
import { max, scaleLinear, scaleLog } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { concertPitch, noteLabel, noteText } from "../../../words/instruments.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import { add, clamp, type Drawing, type Frame, sheet, type Table, typeSizes } from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { heading } from "../../kit/labels/text.ts";
import { curve } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox, silent } from "../../kit/panel.ts";
import { type Column, noteColumns, tableOf } from "../../kit/table.ts";
import { roundTicks, ticksAt } from "../../kit/ticks.ts";
import {
  drawVariants,
  inDrawingOrder,
  keyHeight,
  type Standing,
  strokeOf,
  type Variant,
} from "./compareSeries.ts";

export interface CurveVariant extends Variant {
  readonly frequencies: Float64Array;
  /** Pa·s/m³ */
  readonly magnitude: Float64Array;
  readonly modes: readonly {
    readonly n: number;
    readonly frequencyHz: number;
    readonly peakHz: number | null;
    readonly peakImpedance: number | null;
  }[];
}

export interface CompareCurvesData extends Standing {
  readonly variants: readonly CurveVariant[];
  /** Number of the resonance whose neighbourhood is shown; null: all. */
  readonly around: number | null;
}

const unitPa = 1e6;
const allTicks = [50, 100, 200, 300, 500, 700, 1000, 1500];
/** To either side of a resonance, as a ratio: two and a half semitones. */
const NEIGHBOURHOOD = 2 ** (2.5 / 12);

export const compareCurvesHeight = ({ variants }: CompareCurvesData, width: number): number =>
  clamp(0.5 * width, 260, 420) + keyHeight(variants, width, typeSizes({ width }).small);

export function compareCurves(data: CompareCurvesData, frame: Frame): Drawing {
  const { variants, around } = data;
  const { small, large } = typeSizes(frame);
  const [lowHz, highHz] = domainOf(data);
  const svg = sheet(frame, {
    name: "compare-curves",
    title: "Input impedance at the rim of all variants",
    description: describe(data, frame),
  });
  const keyTop = large + 8;
  const titleRow = keyTop + keyHeight(variants, frame.width, small) + small + 4;
  const plot = plotBox(frame, { left: 3.4 * small, right: 10, top: titleRow + small + 8 });
  const x = scaleLog([lowHz, highHz], [plot.left, plot.right]);
  const isShown = (hz: number) => hz >= lowHz && hz <= highHz;
  const tallest =
    max(variants, ({ frequencies, magnitude }) =>
      max(magnitude, (pa, i) => (isShown(frequencies[i]) ? pa / unitPa : 0)),
    ) ?? 1;
  const y = scaleLinear([0, 1.12 * tallest], [plot.bottom, plot.top]);
  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  leftAxis(ground, roundTicks(y, 5), true);
  const marks = around === null ? ticksAt(allTicks.filter(isShown)) : roundTicks(x, 6);
  bottomAxis(ground, marks, "frequency, Hz");
  const title =
    around === null ? "Input impedance" : `Input impedance around ${noteText(around, frame.instrument)}`;
  heading(ground.parent, title, large);
  label(ground, "|Z|, MPa·s/m³", 0, titleRow, { fill: "muted" });
  drawVariants(ground.parent, variants, data, keyTop, frame.width, small);

  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  for (const variant of inDrawingOrder(variants, data)) {
    const { frequencies, magnitude } = variant;
    const inside = Array.from(frequencies.keys()).filter((i) => isShown(frequencies[i]));
    const d = curve(
      inside.map((i) => x(frequencies[i])),
      inside.map((i) => y(magnitude[i] / unitPa)),
    );
    add(curves, "path", { "data-variant": `${variant.number}`, d, ...strokeOf(variant, data) });
  }
  labelPeaks({ ...ground, parent: svg }, data, frame);
  return { svg, x, y, plot };
}

/** The whole of what was computed, or a stretch that holds the resonance of every variant. */
function domainOf({ variants, around }: CompareCurvesData): [number, number] {
  const [{ frequencies }] = variants;
  const whole: [number, number] = [frequencies[0], frequencies[frequencies.length - 1]];
  const places = variants.flatMap(({ modes }) => modes.find(({ n }) => n === around)?.frequencyHz ?? []);
  if (places.length === 0) return whole;
  return [
    Math.max(whole[0], Math.min(...places) / NEIGHBOURHOOD),
    Math.min(whole[1], Math.max(...places) * NEIGHBOURHOOD),
  ];
}

/** The notes of the reference's peaks. */
function labelPeaks(on: Panel, { variants, reference }: CompareCurvesData, { instrument }: Frame): void {
  const { x, y, plot, size } = on;
  const modesOfReference = variants.find(({ number }) => number === reference)?.modes ?? [];
  let last = -Infinity;
  for (const { n, peakHz, peakImpedance } of modesOfReference) {
    if (peakHz === null || peakImpedance === null) continue;
    const at = x(peakHz);
    if (at < plot.left || at > plot.right || at - last < 2.6 * size) continue;
    last = at;
    const up = Math.min(
      ...variants.flatMap(({ modes }) => {
        const peak = modes.find((mode) => mode.n === n)?.peakImpedance;
        return peak ? [y(peak / unitPa)] : [];
      }),
    );
    const style = { anchor: "middle", weight: 500, halo: true } as const;
    label(on, noteLabel(n, instrument), at, Math.max(plot.top + 2, up - 6), style);
  }
}

export const compareCurvesTable = ({ variants }: CompareCurvesData): Table =>
  tableOf(Array.from(variants[0]?.frequencies ?? []), [
    ["frequency (Hz)", (hz) => hz],
    ...variants.map(
      ({ number, name, magnitude }): Column<number> => [
        `|Z| ${number} ${name} (Pa·s/m³)`,
        (_, i) => magnitude[i],
      ],
    ),
  ]);

const inMega = (pa: number | null): number | null => (pa === null ? null : pa / unitPa);

/** The peaks, to read. */
export const comparePeaksTable = (
  { variants }: CompareCurvesData,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table =>
  tableOf(
    [...Array(Math.max(0, ...variants.map(({ modes }) => modes.length))).keys()],
    [
      ...noteColumns<number>((i) => i + 1, instrument),
      ...variants.flatMap(({ number, name, modes }): Column<number>[] => [
        [`${number} ${name}: peak (Hz)`, (i) => modes[i]?.peakHz],
        ["peak (MPa·s/m³)", (i) => inMega(modes[i]?.peakImpedance ?? null)],
      ]),
    ],
  );

function describe({ variants, reference, around }: CompareCurvesData, { instrument }: Frame): string {
  const named = variants.map(({ number, name, modes }) => {
    const mode = around === null ? undefined : modes.find(({ n }) => n === around);
    if (mode) {
      const pitch = concertPitch(mode.frequencyHz, mode.n, instrument);
      return `${number} ${name}: ${mode.frequencyHz.toFixed(1)} Hz, ${pitch}`;
    }
    const peaks = modes.flatMap(({ n, peakImpedance }) =>
      peakImpedance === null ? [] : [{ n, peakImpedance }],
    );
    if (peaks.length === 0) return `${number} ${name}: no peak`;
    const tallest = peaks.reduce((a, b) => (b.peakImpedance > a.peakImpedance ? b : a));
    return `${number} ${name}: tallest peak ${(tallest.peakImpedance / unitPa).toFixed(1)} MPa·s/m³ at ${noteText(tallest.n, instrument)}`;
  });
  const where = around === null ? "over the whole range" : `around ${noteText(around, instrument)}`;
  return `|Z| of ${variants.length} candidates ${where}, compared with ${reference}. ${named.join("; ")}.`;
}

export const compareCurvesFigure: Figure<CompareCurvesData> = {
  name: "compare-impedance",
  label: "Input impedance of all candidates",
  about:
    "How strongly each instrument answers at the mouthpiece's rim, the ratio of sound pressure to flow, each brought to pitch " +
    "where that is asked for. Peaks are named by their notes, as written. Look at one by itself to tell curves apart " +
    "that lie on one another in the whole.",
  caption: () => "Dashed blue: the one compared with. Orange: highlighted.",
  height: (width, data) => (data ? compareCurvesHeight(data, width) : 0),
  readable: comparePeaksTable,
  draw: compareCurves,
  table: compareCurvesTable,
};
