/**
 * What an error of manufacture does, wherever along the leadpipe it is: a map of note against place. A square is as large as the
 * change is, filled where the note goes up, open where it goes down, faint where that is too small to notice. An error is a bump,
 * at its largest at the place and gone one spacing away.
 */

import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { isNoticeable } from "../../../study/change/judgement.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteLabel, noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  type Point,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { firstFitting, heading } from "../../kit/labels/text.ts";
import { heightOf, label, type Panel, plotBox, widthOf } from "../../kit/panel.ts";
import { type Column, lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn } from "../../kit/ticks.ts";
import type { Paint } from "../../kit/tokens.ts";

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
  const rowScale = large + small + 14;
  const plot = plotBox(frame, { left: 3.6 * small + 6, right: 10, top: rowScale + 10 });
  const rows = [...modes].sort((a, b) => b.n - a.n);
  const x = scaleLinear([0, placesMm[placesMm.length - 1]], [plot.left + 8, plot.right - 8]);
  const y = scaleLinear([0, Math.max(1, rows.length)], [plot.top, plot.bottom]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  const error = `${errorLength(errorMm, frame.unit)} too wide at one place`;
  heading(svg, error, large);
  const most = Math.max(0, ...modes.flatMap(({ change }) => change.map(Math.abs)));
  const apart = placesMm.length > 1 ? Math.abs(x(placesMm[1]) - x(placesMm[0])) : heightOf(plot);
  const largest = Math.max(3, Math.min(apart, y(1) - y(0), MOST_PX) - 2);
  /** Its area is the change. */
  const sideOf = (change: number) => (most > 0 ? largest * Math.sqrt(Math.abs(change) / most) : 0);
  scaleKey({ ...on, parent: svg }, { most, largest, feltFrom, unit: UNIT[quantity] }, rowScale);
  rows.forEach(({ n, change }, i) => {
    const middle = y(i + 0.5);
    const isChosen = n === highlight;
    const style = isChosen ? ({ weight: 700, fill: "gap" } as const) : { weight: 500 };
    label(on, noteLabel(n, frame.instrument), 0, middle + 0.36 * small, style);
    const row = add(svg, "g", { "data-resonance": `${n}` });
    rule(row, [plot.left, middle], [plot.right, middle], "hairline", 0.75);
    change.forEach((by, place) => {
      const side = sideOf(by);
      if (side < LEAST_PX) return;
      const isFelt = isNoticeable(by, feltFrom);
      square(row, [x(placesMm[place]), middle], side, by > 0, isChosen ? "gap" : "ink", isFelt);
    });
  });
  const title = `from the leadpipe's start, ${frame.unit}`;
  bottomAxis(on, lengthTicks(x, frame.unit, marksIn(widthOf(plot), 80, 3)), title);
  return { svg, x, y, plot };
}

/** A square's side, px: the largest, and what is too small to be seen. */
const MOST_PX = 28;
const LEAST_PX = 1;
/** Of what nobody notices. */
const FAINT = 0.45;

function square(parent: Element, [x, y]: Point, side: number, isUp: boolean, paint: Paint, isFelt: boolean) {
  const edge = isUp ? 0 : Math.min(1.25, side / 3);
  add(parent, "rect", {
    x: x - side / 2 + edge / 2,
    y: y - side / 2 + edge / 2,
    width: side - edge,
    height: side - edge,
    ...(isUp ? { fill: paint } : { fill: "paper" as const, stroke: paint, "stroke-width": edge }),
    opacity: isFelt ? undefined : `${FAINT}`,
  });
}

/** The largest squares with what they stand for, and from where a change is noticed. */
function scaleKey(
  { parent, size, plot }: Panel,
  { most, largest, feltFrom, unit }: Record<"most" | "largest" | "feltFrom", number> & { unit: string },
  row: number,
): void {
  const isFelt = isNoticeable(most, feltFrom);
  const middle = row - 0.36 * size;
  let at = 0;
  for (const isUp of [true, false]) {
    const text = `${signed(isUp ? most : -most, digitsOf(most))}${isUp ? "" : ` ${unit}`}`;
    square(parent, [at + largest / 2, middle], largest, isUp, "ink", isFelt);
    label({ parent, size }, text, at + largest + 5, row);
    at += largest + 5 + textWidth(text, size) + 14;
  }
  const least = `${Number(feltFrom.toPrecision(3))} ${unit}`;
  const words = isFelt
    ? [`faint: ${TOO_SMALL}, under ${least}`, `faint: under ${least}`]
    : [`all ${TOO_SMALL}: under ${least}`, TOO_SMALL];
  const fitting = firstFitting(words, plot.right - at, size);
  if (fitting) label({ parent, size }, fitting, plot.right, row, { anchor: "end", fill: "muted" });
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
    "The leadpipe is too wide at one place: a bump that is largest there and gone on either side. A row is a note: the " +
    "larger a square, the more an error at that place moves it; filled: up, open: down; faint: too small to notice. Exact to first order; half the error does half, a bore too narrow the opposite. Errors at several places add up.",
  caption: (data, unit, instrument) =>
    data
      ? `The error is gone ${formatLength(data.extentMm, unit)} to either side. Orange: ${noteText(data.highlight, instrument)}.`
      : "",
  height: proportional(0.5, 280, 400),
  draw: sensitivityChart,
  table: sensitivityTable,
};
