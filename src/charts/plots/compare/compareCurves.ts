/** |Z| of several variants over one another: all of the range, or the neighbourhood of one resonance. */
import { max, scaleLinear, scaleLog } from "d3";
import { nearestNote } from "../../../words/notes.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import { corners, curvePath } from "../../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";
import {
  drawKey,
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
  clamp(0.5 * width, 260, 420) +
  keyHeight(variants, width, typeSizes({ width, height: 0, unit: "mm" }).small);

export function compareCurves(data: CompareCurvesData, frame: Frame): Drawing {
  const { variants, around } = data;
  const { small, large } = typeSizes(frame);
  const [lowHz, highHz] = domainOf(data);
  const svg = sheet(frame, {
    name: "compare-curves",
    title: "Input impedance at the rim of all variants",
    description: describe(data),
  });
  const keyTop = large + 8;
  const titleRow = keyTop + keyHeight(variants, frame.width, small) + small + 4;
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 10,
    top: titleRow + small + 8,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleLog([lowHz, highHz], [plot.left, plot.right]);
  const tallest =
    max(variants, ({ frequencies, magnitude }) =>
      max(magnitude, (pa, i) => (frequencies[i] >= lowHz && frequencies[i] <= highHz ? pa / unitPa : 0)),
    ) ?? 1;
  const y = scaleLinear([0, 1.12 * tallest], [plot.bottom, plot.top]);
  const ground = add(svg, "g", { "aria-hidden": "true" });
  leftAxis(
    ground,
    y,
    plot,
    y.ticks(5).map((value) => ({ value, text: tickText(value) })),
    small,
    true,
  );
  const ticks = around === null ? allTicks : scaleLinear([lowHz, highHz], [plot.left, plot.right]).ticks(6);
  bottomAxis(
    ground,
    x,
    plot,
    ticks.filter((hz) => hz >= lowHz && hz <= highHz).map((value) => ({ value, text: tickText(value) })),
    "frequency, Hz",
    small,
  );
  write(
    ground,
    around === null ? "Input impedance" : `Input impedance around resonance ${around}`,
    0,
    large,
    {
      size: large,
      weight: 600,
    },
  );
  write(ground, "|Z|, MPa·s/m³", 0, titleRow, { size: small, fill: colour("muted") });
  drawKey(ground, variants, data, keyTop, frame.width, small);

  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  for (const variant of inDrawingOrder(variants, data)) {
    const { frequencies, magnitude } = variant;
    const inside = Array.from(frequencies.keys()).filter(
      (i) => frequencies[i] >= lowHz && frequencies[i] <= highHz,
    );
    add(curves, "path", {
      "data-variant": `${variant.number}`,
      d: curvePath(
        corners(
          inside.map((i) => x(frequencies[i])),
          inside.map((i) => y(magnitude[i] / unitPa)),
        ),
      ),
      ...strokeOf(variant, data),
    });
  }
  labelResonances(svg, data, x, (pa) => y(pa / unitPa), plot, small);
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

/** Numbers of the reference's resonances. */
function labelResonances(
  svg: SVGSVGElement,
  { variants, reference }: CompareCurvesData,
  x: (hz: number) => number,
  yOf: (pa: number) => number,
  plot: Box,
  size: number,
): void {
  let last = -Infinity;
  for (const { n, peakHz, peakImpedance } of variants.find(({ number }) => number === reference)?.modes ??
    []) {
    if (peakHz === null || peakImpedance === null) continue;
    const at = x(peakHz);
    if (at < plot.left || at > plot.right || at - last < 1.6 * size) continue;
    last = at;
    const up = Math.min(
      ...variants.flatMap(({ modes }) => {
        const peak = modes.find((mode) => mode.n === n)?.peakImpedance;
        return peak ? [yOf(peak)] : [];
      }),
    );
    write(svg, `${n}`, at, Math.max(plot.top + 2, up - 6), {
      size,
      anchor: "middle",
      weight: 500,
      halo: true,
    });
  }
}

export const compareCurvesTable = ({ variants }: CompareCurvesData): Table => ({
  columns: ["frequency (Hz)", ...variants.map(({ number, name }) => `|Z| ${number} ${name} (Pa·s/m³)`)],
  rows: Array.from(variants[0]?.frequencies ?? [], (hz, i) => [
    hz,
    ...variants.map(({ magnitude }) => magnitude[i]),
  ]),
});

/** The peaks, to read. */
export const comparePeaksTable = ({ variants }: CompareCurvesData): Table => ({
  columns: [
    "resonance",
    ...variants.flatMap(({ number, name }) => [`${number} ${name}: peak (Hz)`, "peak (MPa·s/m³)"]),
  ],
  rows: Array.from({ length: Math.max(0, ...variants.map(({ modes }) => modes.length)) }, (_, i) => [
    i + 1,
    ...variants.flatMap(({ modes }) => {
      const mode = modes[i];
      const height = mode?.peakImpedance ?? null;
      return [mode?.peakHz ?? "", height === null ? "" : height / unitPa];
    }),
  ]),
});

function describe({ variants, reference, around }: CompareCurvesData): string {
  const named = variants.map(({ number, name, modes }) => {
    const mode = around === null ? undefined : modes.find(({ n }) => n === around);
    if (mode) {
      const note = nearestNote(mode.frequencyHz);
      return `${number} ${name}: ${mode.frequencyHz.toFixed(1)} Hz, near ${note.name}`;
    }
    const peaks = modes.flatMap(({ n, peakImpedance }) =>
      peakImpedance === null ? [] : [{ n, peakImpedance }],
    );
    if (peaks.length === 0) return `${number} ${name}: no peak`;
    const tallest = peaks.reduce((a, b) => (b.peakImpedance > a.peakImpedance ? b : a));
    return `${number} ${name}: tallest peak ${(tallest.peakImpedance / unitPa).toFixed(1)} MPa·s/m³ at resonance ${tallest.n}`;
  });
  const where = around === null ? "over the whole range" : `around resonance ${around}`;
  return `|Z| of ${variants.length} variants ${where}, the reference is ${reference}. ${named.join("; ")}.`;
}

export const compareCurvesFigure: Figure<CompareCurvesData> = {
  name: "compare-impedance",
  label: "Input impedance of all candidates",
  about:
    "How strongly each instrument answers at the mouthpiece's rim, the ratio of sound pressure to flow, each brought to pitch " +
    "where that is asked for. The numbers are the reference's resonances. Look at one resonance by itself to tell curves apart " +
    "that lie on one another in the whole.",
  caption: () => "Dashed blue: the reference. Orange: the one that stands out.",
  height: (width, data) => (data ? compareCurvesHeight(data, width) : 0),
  readable: comparePeaksTable,
  draw: compareCurves,
  table: compareCurvesTable,
};
