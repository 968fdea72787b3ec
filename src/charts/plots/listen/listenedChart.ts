/**
 * What was measured of one note at each gap, an open diamond with its interval; of a slot the model's width beside it, never
 * fitted to it.
 */
import { range, scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { type ModelWidth, widthAt } from "../../../study/listened/besideModel.ts";
import type { ListenedNote, MeasuredGap } from "../../../study/listened/measuredGaps.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { isShare, listenedWords, takenWords } from "../../../words/listen/measuredWords.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import { type Drawing, type Frame, sheet, type Table, typeSizes } from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { drawKey, type KeyItem } from "../../kit/labels/key.ts";
import { diamond } from "../../kit/marks/diamond.ts";
import { intervalBar } from "../../kit/marks/intervalBar.ts";
import { line } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox, silent } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn, roundTicks } from "../../kit/ticks.ts";

export interface ListenedChart {
  readonly note: ListenedNote;
  /** Of a slot; none while it is not known, or for another test. */
  readonly model: readonly ModelWidth[];
}

/** Beyond the gaps that were listened to, mm. */
const ROOM_MM = 0.4;
/** Along the model's line. */
const STEPS = 40;
const MODEL = { stroke: "ink", "stroke-width": 1.75 } as const;

export function listenedChart({ note, model }: ListenedChart, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const { gaps, test } = note;
  const svg = sheet(frame, {
    name: "listened",
    title: "Measured over gap",
    description: listenedWords(note, frame.unit, frame.instrument),
  });
  const plot = plotBox(frame, { left: 3.6 * small, right: small, top: 3.4 * small });
  const [least, most] = [gaps[0].gapMm - ROOM_MM, gaps[gaps.length - 1].gapMm + ROOM_MM];
  const x = scaleLinear([Math.max(0, least), most], [plot.left, plot.right]);
  const shown = range(STEPS + 1).flatMap((i) => {
    const gapMm = x.invert(plot.left + (i / STEPS) * (plot.right - plot.left));
    const cents = widthAt(model, gapMm);
    return cents === null ? [] : { gapMm, cents };
  });
  const scale = isShare(test) ? 100 : 1;
  const y = scaleLinear(
    rangeOf([
      ...gaps.flatMap(({ value, interval }) => [value, ...(interval ?? [])]).map((one) => scale * one),
      ...shown.map(({ cents }) => cents),
    ]),
    [plot.bottom, plot.top],
  ).nice(5);
  const on: Panel = { parent: silent(svg), x, y, plot, size: small };
  leftAxis(on, roundTicks(y, 5), true);
  bottomAxis(on, lengthTicks(x, frame.unit, marksIn(plot.right - plot.left, 80, 2)), `gap (${frame.unit})`);
  const title = isShare(test) ? "missed, %" : test === "slot" ? "slot width, cents" : "cents about the note";
  label(on, title, 0, plot.top - 8, { fill: "muted" });
  drawKey(on, keyOf(shown.length > 0, frame), 0, small, { sample: 22, apart: 16 });
  if (shown.length > 0)
    line(
      on.parent,
      shown,
      ({ gapMm }) => x(gapMm),
      ({ cents }) => y(cents),
      { "data-part": "model", ...MODEL },
    );
  for (const { gapMm, value, interval } of gaps) {
    if (interval) {
      const [low, high] = interval.map((one) => y(scale * one));
      intervalBar(on.parent, { ends: [low, high], at: x(gapMm), cap: 5, isUpright: true }, "measured");
    }
    diamond(on.parent, [x(gapMm), y(scale * value)], 6, "measured", { "data-part": "measured" });
  }
  return { svg, x, y, plot };
}

function rangeOf(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = 0.1 * Math.max(high - low, 5);
  return [low - room, high + room];
}

const keyOf = (hasModel: boolean, { width }: Frame): KeyItem[] => [
  { text: "this player, 95 %", line: { stroke: "measured", "stroke-width": 2 }, fill: "measured" },
  ...(hasModel ? [{ text: width < 500 ? "model" : "the model’s lips", line: MODEL }] : []),
];

const measuredOf = ({ value, interval }: MeasuredGap) => [value, interval?.[0], interval?.[1]] as const;

export function listenedTable({ note, model }: ListenedChart, unit: LengthUnit): Table {
  const of = isShare(note.test)
    ? "share missed"
    : note.test === "slot"
      ? "slot width (cents)"
      : "pitch (cents)";
  const rows = [
    ...note.gaps.map((gap) => ({
      who: "this player",
      gapMm: gap.gapMm,
      values: measuredOf(gap),
      takes: gap.takes,
    })),
    ...model.map(({ gapMm, cents }) => ({ who: "model", gapMm, values: [cents] as const, takes: null })),
  ];
  return tableOf<(typeof rows)[number]>(rows, [
    ["of", ({ who }) => who],
    lengthColumn("gap", unit, ({ gapMm }) => gapMm),
    [of, ({ values }) => values[0]],
    ["low end, 95 %", ({ values }) => values[1]],
    ["high end, 95 %", ({ values }) => values[2]],
    ["takes", ({ takes }) => takes],
  ]);
}

export const listenedFigure: Figure<ListenedChart> = {
  name: "listened",
  label: "Measured over gap",
  about:
    "An open diamond is the mean of what this player did at a gap, the bar how well it is known (95 %). The line is the model’s: of a " +
    "slot, by how much its lips’ own pitch may be changed with the note still the one that grows fastest. A player bends with " +
    "more than the lips, so the two widths need not be alike; what counts is how each changes with the gap. Nothing is fitted.",
  caption: (data, _unit, instrument?: InstrumentKind) =>
    data ? `The ${takenWords(data.note, instrument)} over gap.` : "",
  height: proportional(0.55, 240, 340),
  draw: listenedChart,
  table: listenedTable,
};
