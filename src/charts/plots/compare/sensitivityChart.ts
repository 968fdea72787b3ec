/**
 * What an error of manufacture does, wherever along the leadpipe it is: one curve for each resonance, the chosen one in the
 * accent, and the band that nobody feels. An error is a bump, at its largest at the place and gone one spacing away.
 */

import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { isNoticeable } from "../../../study/change/judgement.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteLabel, noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import { levelBand } from "../../kit/band.ts";
import { add, type Drawing, type Frame, sheet, type Table, textWidth, typeSizes } from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { curve, levelLine } from "../../kit/line.ts";
import { label, type Panel, plotBox, widthOf } from "../../kit/panel.ts";
import { spread } from "../../kit/spread.ts";
import { type Column, lengthColumn, tableOf } from "../../kit/table.ts";
import { heading } from "../../kit/text.ts";
import { lengthTicks, marksIn, roundTicks, signedText } from "../../kit/ticks.ts";
import { resonanceColour } from "../../kit/tokens.ts";

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
    description: describe(data, frame),
  });
  const rowAxis = large + small + 10;
  const plot = plotBox(frame, { left: 4.2 * small, right: 3.4 * small, top: rowAxis + 10 });
  const x = scaleLinear([0, placesMm[placesMm.length - 1]], [plot.left, plot.right]);
  const most = Math.max(1e-6, ...modes.flatMap(({ change }) => change.map(Math.abs)));
  const y = scaleLinear([-1.12 * most, 1.12 * most], [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  heading(svg, `${errorLength(errorMm, frame.unit)} too wide at one place`, large);
  const axisTitle = quantity === "pitch" ? "resonances move by, cents" : "peaks change by, dB";
  label(on, axisTitle, 0, rowAxis, { fill: "muted" });
  label(on, "note", frame.width - 2, rowAxis, { anchor: "end", fill: "muted" });
  levelBand(on, [-feltFrom, feltFrom], { part: "felt", isCut: true });
  const words = `hatched: ${TOO_SMALL} (under ${Number(feltFrom.toPrecision(3))} ${UNIT[quantity]})`;
  if (textWidth(words, small) < widthOf(plot) - 8)
    label(on, words, plot.left + 8, plot.bottom - 6, { halo: true, fill: "muted" });
  leftAxis(on, roundTicks(y, 6, signedText));
  const title = `from the leadpipe's start, ${frame.unit}`;
  bottomAxis(on, lengthTicks(x, frame.unit, marksIn(widthOf(plot), 80, 3)), title);
  levelLine(on, 0, "muted");
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  const last = (n: number) => Number(n === highlight);
  for (const { n, change } of [...modes].sort((a, b) => last(a.n) - last(b.n)))
    add(curves, "path", {
      "data-resonance": `${n}`,
      d: curve(
        placesMm.map((mm) => x(mm)),
        change.map((by) => y(by)),
      ),
      stroke: n === highlight ? "gap" : resonanceColour(n),
      "stroke-width": n === highlight ? 3 : 1.25,
    });
  const ends = modes.map(({ n, change }) => ({ n, at: y(change[change.length - 1]) }));
  ends.sort((a, b) => a.at - b.at);
  const wanted = ends.map(({ at }) => at);
  const places = spread(wanted, small, [plot.top + 4, plot.bottom - 2]);
  ends.forEach(({ n }, i) => {
    const style = n === highlight ? ({ weight: 700, fill: "gap" } as const) : { weight: 400 };
    label(on, noteLabel(n, frame.instrument), plot.right + 6, places[i] + 0.36 * small, style);
  });
  return { svg, x, y, plot };
}

const errorLength = (errorMm: number, unit: LengthUnit): string =>
  formatLength(errorMm, unit, unit === "mm" ? 2 : 4);

export const sensitivityTable = (
  { placesMm, modes, quantity, errorMm }: SensitivityData,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table =>
  tableOf(placesMm, [
    lengthColumn("from the leadpipe's start", unit, (mm) => mm),
    ...modes.map(
      ({ n, change }): Column<number> => [
        `${noteText(n, instrument)}: ${UNIT[quantity]} by ${errorLength(errorMm, unit)}`,
        (_, i) => change[i],
      ],
    ),
  ]);

function describe(
  { name, modes, placesMm, quantity, highlight, errorMm, feltFrom }: SensitivityData,
  { unit, instrument }: Frame,
): string {
  const mode = modes.find(({ n }) => n === highlight);
  const error = errorLength(errorMm, unit);
  if (!mode) return `${name}: ${noteText(highlight, instrument)} is not there.`;
  const worst = mode.change.reduce(
    (best, by, i) => (Math.abs(by) > Math.abs(mode.change[best]) ? i : best),
    0,
  );
  const by = mode.change[worst];
  const felt = isNoticeable(by, feltFrom) ? "" : `, ${TOO_SMALL}`;
  return `${name}: a bore ${error} too wide moves ${noteText(highlight, instrument)} most at ${formatLength(placesMm[worst], unit)} from the leadpipe's start, by ${signed(by, digitsOf(by))} ${UNIT[quantity]}${felt}.`;
}

export const sensitivityFigure: Figure<SensitivityData> = {
  name: "bore-sensitivity",
  label: "What an error of the leadpipe's bore does",
  about:
    "The leadpipe is too wide at one place: a bump that is largest there and gone on either side. Each curve says what that does to " +
    "one note, exact to first order; half the error does half, a bore too narrow the opposite. Errors at several places add up.",
  caption: (data, unit, instrument) =>
    data
      ? `The error is gone ${formatLength(data.extentMm, unit)} to either side. Orange: ${noteText(data.highlight, instrument)}.`
      : "",
  height: proportional(0.5, 280, 400),
  draw: sensitivityChart,
  table: sensitivityTable,
};
