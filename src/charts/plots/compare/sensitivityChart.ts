/**
 * What an error of manufacture does, wherever along the leadpipe it is: one curve for each resonance, the chosen one in the
 * accent, and the band that nobody feels. An error is a bump, at its largest at the place and gone one spacing away.
 */
import { scaleLinear, ticks } from "d3";
import { isNoticeable } from "../../../study/change/judgement.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import { corners, curvePath } from "../../kit/curve.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { hatchPath } from "../../kit/hatch.ts";
import { inUnit, lengthTicks, tickText } from "../../kit/numbers.ts";
import { spread } from "../../kit/spread.ts";
import { colour, resonanceColour } from "../../kit/tokens.ts";

export interface SensitivityData {
  readonly name: string;
  readonly errorMm: number;
  /** On either side of the place the error is gone, mm. */
  readonly extentMm: number;
  /** From the leadpipe's start, mm. */
  readonly placesMm: readonly number[];
  /** Change by the error at each place. */
  readonly modes: readonly { readonly n: number; readonly change: readonly number[] }[];
  readonly quantity: "pitch" | "height";
  readonly highlight: number;
  readonly feltFrom: number;
}

const UNIT = { pitch: "cents", height: "dB" } as const;
const digitsOf = (change: number): number => (Math.abs(change) < 0.1 ? 3 : 2);

export function sensitivityChart(data: SensitivityData, frame: Frame): Drawing {
  const { placesMm, modes, quantity, highlight, feltFrom, errorMm } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "sensitivity-chart",
    title: `What an error of the leadpipe's bore does to the ${quantity === "pitch" ? "resonances" : "peaks"}`,
    description: describe(data, frame.unit),
  });
  const rowAxis = large + small + 10;
  const plot: Box = {
    left: 4.2 * small,
    right: frame.width - 2.6 * small,
    top: rowAxis + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleLinear([0, placesMm[placesMm.length - 1]], [plot.left, plot.right]);
  const most = Math.max(1e-6, ...modes.flatMap(({ change }) => change.map(Math.abs)));
  const y = scaleLinear([-1.12 * most, 1.12 * most], [plot.bottom, plot.top]);
  const title = `${formatLength(errorMm, frame.unit, frame.unit === "mm" ? 2 : 4)} too wide at one place`;
  write(svg, title, 0, large, { size: large, weight: 600 });
  write(svg, quantity === "pitch" ? "resonances move by, cents" : "peaks change by, dB", 0, rowAxis, {
    size: small,
    fill: colour("muted"),
  });
  write(svg, "resonance", frame.width - 2, rowAxis, { size: small, anchor: "end", fill: colour("muted") });
  drawBand(svg, y, plot, feltFrom, UNIT[quantity], small);
  leftAxis(
    svg,
    y,
    plot,
    y.ticks(6).map((value) => ({ value, text: tickText(value, true) })),
    small,
  );
  bottomAxis(
    svg,
    x,
    plot,
    lengthTicks(x, ticks, frame.unit, Math.max(3, Math.floor((plot.right - plot.left) / 80))).map(
      ({ mm, text }) => ({
        value: mm,
        text,
      }),
    ),
    `from the leadpipe's start, ${frame.unit}`,
    small,
  );
  rule(svg, [plot.left, y(0)], [plot.right, y(0)], colour("muted"));
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  for (const { n, change } of [...modes].sort(
    (a, b) => Number(a.n === highlight) - Number(b.n === highlight),
  ))
    add(curves, "path", {
      "data-resonance": `${n}`,
      d: curvePath(
        corners(
          placesMm.map((mm) => x(mm)),
          change.map((by) => y(by)),
        ),
      ),
      stroke: n === highlight ? colour("gap") : resonanceColour(n),
      "stroke-width": n === highlight ? 3 : 1.25,
    });
  const ends = modes
    .map(({ n, change }) => ({ n, at: y(change[change.length - 1]) }))
    .sort((a, b) => a.at - b.at);
  const places = spread(
    ends.map(({ at }) => at),
    small,
    [plot.top + 4, plot.bottom - 2],
  );
  ends.forEach(({ n }, i) => {
    write(svg, `${n}`, plot.right + 6, places[i] + 0.36 * small, {
      size: small,
      weight: n === highlight ? 700 : 400,
      fill: n === highlight ? colour("gap") : colour("ink"),
    });
  });
  return { svg, x, y, plot };
}

/** Where it is wider than the chart, all of the chart. */
function drawBand(
  svg: SVGSVGElement,
  y: ReturnType<typeof scaleLinear<number>>,
  plot: Box,
  felt: number,
  unit: string,
  size: number,
): void {
  const top = Math.max(plot.top, y(felt));
  const bottom = Math.min(plot.bottom, y(-felt));
  const band: Point[] = [
    [plot.left, top],
    [plot.right, top],
    [plot.right, bottom],
    [plot.left, bottom],
  ];
  add(svg, "path", { "data-part": "felt", d: hatchPath(band, 6, -1), stroke: colour("feel") });
  const words = `hatched: too small to feel (under ${Number(felt.toPrecision(3))} ${unit})`;
  if (textWidth(words, size) < plot.right - plot.left - 8)
    write(svg, words, plot.left + 8, plot.bottom - 6, { size, halo: true, fill: colour("muted") });
}

export const sensitivityTable = (
  { placesMm, modes, quantity, errorMm }: SensitivityData,
  unit: LengthUnit,
): Table => ({
  columns: [
    `from the leadpipe's start (${unit})`,
    ...modes.map(
      ({ n }) => `resonance ${n}: ${UNIT[quantity]} by ${formatLength(errorMm, unit, unit === "mm" ? 2 : 4)}`,
    ),
  ],
  rows: placesMm.map((mm, i) => [inUnit(mm, unit), ...modes.map(({ change }) => change[i])]),
});

function describe(
  { name, modes, placesMm, quantity, highlight, errorMm, feltFrom }: SensitivityData,
  unit: LengthUnit,
): string {
  const mode = modes.find(({ n }) => n === highlight);
  const error = formatLength(errorMm, unit, unit === "mm" ? 2 : 4);
  if (!mode) return `${name}: resonance ${highlight} is not there.`;
  const worst = mode.change.reduce(
    (best, by, i) => (Math.abs(by) > Math.abs(mode.change[best]) ? i : best),
    0,
  );
  const by = mode.change[worst];
  const felt = isNoticeable(by, feltFrom) ? "" : ", too small to feel";
  return `${name}: a bore ${error} too wide moves resonance ${highlight} most at ${formatLength(placesMm[worst], unit)} from the leadpipe's start, by ${signed(by, digitsOf(by))} ${UNIT[quantity]}${felt}.`;
}

export const sensitivityFigure: Figure<SensitivityData> = {
  name: "bore-sensitivity",
  label: "What an error of the leadpipe's bore does",
  about:
    "The leadpipe is too wide at one place: a bump that is largest there and gone on either side. Each curve says what that does to " +
    "one resonance, exact to first order; half the error does half, a bore too narrow the opposite. Errors at several places add up.",
  caption: (data, unit) =>
    data
      ? `The error is gone ${formatLength(data.extentMm, unit)} to either side. Orange: resonance ${data.highlight}.`
      : "",
  height: proportional(0.5, 280, 400),
  draw: sensitivityChart,
  table: sensitivityTable,
};
