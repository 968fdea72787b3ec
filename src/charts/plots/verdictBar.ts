/** One test of a verdict as a small bar: what every resonance does, how well that is known, and what would be large enough to feel. */
import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { type Change, extremes, rangeOf, type Test } from "../../study/change/verdicts.ts";
import { noteText } from "../../words/instruments.ts";
import { signed } from "../../words/numbers.ts";
import { FINDING } from "../../words/verdicts/findings.ts";
import { testName } from "../../words/verdicts/tests.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  polygonPath,
  rule,
  sheet,
  type Table,
  textWidth,
} from "../kit/drawing.ts";
import { hatched, rectangle } from "../kit/marks/band.ts";
import { dot } from "../kit/marks/dot.ts";
import { intervalPath } from "../kit/marks/intervalBar.ts";
import { uprightLine } from "../kit/marks/line.ts";
import { tickText } from "../kit/numbers.ts";
import { label } from "../kit/panel.ts";
import { noteColumns, tableOf } from "../kit/table.ts";

const size = 12;

export function verdictBar(test: Test, frame: Frame): Drawing {
  const { changes, threshold, unit, asked } = test;
  const digits = unit === "dB" ? 2 : 1;
  const [low, high] = extremes(test);
  const ranges = changes.flatMap((change) => rangeOf(change) ?? []);
  const amount = ({ change }: Change) => `${signed(change, digits)} ${unit}`;
  const where = (one: Change) =>
    `${amount(one)}${test.of === "whole" ? "" : ` on ${noteText(one.n, frame.instrument)}`}`;
  const svg = sheet(frame, {
    name: "verdict-bar",
    title: `${testName(test)}: ${signed(low.change, digits)} to ${amount(high)}`,
    description:
      `From ${where(low)} to ${where(high)}${knownIn(test, digits)}; just noticeable: ` +
      `${tickText(threshold)} ${unit}. ${asked === 0 ? "The rule of thumb says that it changes" : `The rule of thumb asks for ${asked > 0 ? "more" : "less"}`}. Finding: ${FINDING[test.finding]}.`,
  });
  const left = 14;
  const right = frame.width - 14;
  const middle = Math.min(frame.height / 2 + 2, frame.height - size - 12);
  const half = clamp(frame.height / 2 - size - 2, 5, 11);
  const furthest = [...changes.map(({ change }) => change), ...ranges].map(Math.abs);
  const reach = 1.12 * Math.max(1.5 * threshold, ...furthest);
  const x = scaleLinear([-reach, reach], [left, right]);
  const y = scaleLinear([-1, 1], [middle + half, middle - half]);

  const on = { parent: svg, x, plot: { left, right, top: middle - half, bottom: middle + half }, size };

  hatched(svg, rectangle({ ...on.plot, left: x(-threshold), right: x(threshold) }));
  rule(svg, [left, middle], [right, middle], "hairline");
  uprightLine(on, 0, "ink");
  const under = middle + half + size + 1;
  const limit = { anchor: "middle", fill: "muted" } as const;
  const isRoom = x(threshold) - x(-threshold) > textWidth(`−${tickText(threshold)} ${unit} `, size);
  for (const side of [-1, 1]) {
    const at = x(side * threshold);
    rule(svg, [at, middle - half], [at, middle + half + 3], "muted");
    if (isRoom) label(on, `${tickText(side * threshold, true)} ${unit}`, at, under, limit);
  }
  if (!isRoom) label(on, `±${tickText(threshold)} ${unit}`, x(0), under, limit);

  if (asked !== 0) drawRule(asked);

  rule(svg, [x(low.change), middle], [x(high.change), middle], "gap", 1.5);
  for (const one of changes) {
    const range = rangeOf(one);
    if (range) {
      const { bar, caps } = intervalPath({ ends: [x(range[0]), x(range[1])], at: middle, cap: 3 });
      add(svg, "path", { "data-part": "uncertainty", d: bar + caps, stroke: "gap" });
    }
    add(svg, "circle", { cx: x(one.change), cy: middle, r: 2.5, fill: "paper", stroke: "gap" });
  }
  for (const { change } of [low, high]) dot(svg, [x(change), middle], 4, "gap");
  labelExtremes();
  return { svg, x, y, plot: on.plot };

  /** Which way the rule points: an open arrow at that end. */
  function drawRule(way: 1 | -1): void {
    const tip = way > 0 ? frame.width - 2 : 2;
    const arrow = polygonPath([
      [tip, middle],
      [tip - way * 9, middle - 5],
      [tip - way * 9, middle + 5],
    ]);
    add(svg, "path", { "data-part": "rule", d: arrow, stroke: "ink", fill: "paper" });
    const outermost = x(way * threshold) + way * (textWidth(`+${tickText(threshold)} ${unit}`, size) / 2 + 6);
    if (way * (tip - outermost) > textWidth("rule", size))
      label(on, "rule", tip, under, { anchor: way > 0 ? "end" : "start" });
  }

  /** Both ends where there is room for both; else the one that goes further. */
  function labelExtremes(): void {
    const room = (one: Change) => textWidth(amount(one), size) / 2;
    const place = (one: Change) => clamp(x(one.change), room(one), frame.width - room(one));
    const further = Math.abs(low.change) > Math.abs(high.change) ? low : high;
    const isRoom = place(high) - room(high) > place(low) + room(low) + 4;
    const style = { anchor: "middle", fill: "gap", weight: 600 } as const;
    for (const one of isRoom ? [low, high] : [further])
      label(on, amount(one), place(one), middle - half - 3, style);
  }
}

/** How well the changes are known: an uncertainty even to both sides, or all that they may be. */
function knownIn({ changes, unit }: Test, digits: number): string {
  if (changes.some(({ range }) => range)) {
    const all = changes.flatMap((change) => rangeOf(change) ?? []);
    return `, all of them between ${signed(Math.min(...all), digits)} and ${signed(Math.max(...all), digits)} ${unit}`;
  }
  const known = Math.max(...changes.map(({ expanded }) => expanded ?? 0));
  return known > 0 ? `, known to ±${known.toPrecision(1)} ${unit}` : "";
}

/** What claims were held against, a row a test and resonance. */
export function verdictTable(
  claims: readonly { readonly rule: string; readonly tests: readonly Test[] }[],
  instrument?: InstrumentKind,
): Table {
  const rows = claims.flatMap(({ rule, tests }) =>
    tests.flatMap((test) => test.changes.map((one) => ({ rule, test, one, range: rangeOf(one) }))),
  );
  return tableOf(rows, [
    ["test", ({ test }) => testName(test)],
    ...noteColumns<(typeof rows)[number]>(
      ({ test, one }) => (test.of === "whole" ? null : one.n),
      instrument,
    ),
    ["change", ({ one }) => one.change],
    ["from", ({ range }) => range?.[0]],
    ["to", ({ range }) => range?.[1]],
    ["unit", ({ test }) => test.unit],
    ["just noticeable", ({ test }) => test.threshold],
    ["rule asks for", ({ test }) => (test.asked === 0 ? "a change" : test.asked > 0 ? "more" : "less")],
    ["finding of the test", ({ test }) => FINDING[test.finding]],
    ["rule of thumb", ({ rule }) => rule],
  ]);
}
