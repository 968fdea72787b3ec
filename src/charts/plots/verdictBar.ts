/** One test of a verdict as a small bar: what every resonance does, how well that is known, and what would be large enough to feel. */
import { scaleLinear } from "d3";
import { type Change, extremes, rangeOf, type Test } from "../../study/change/verdicts.ts";
import { signed } from "../../words/numbers.ts";
import { FINDING } from "../../words/verdicts/findings.ts";
import { testName } from "../../words/verdicts/tests.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  rule,
  sheet,
  type Table,
  textWidth,
  write,
} from "../kit/drawing.ts";
import { hatchPath } from "../kit/hatch.ts";
import { tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

const size = 12;

export function verdictBar(test: Test, frame: Frame): Drawing {
  const { changes, threshold, unit, asked } = test;
  const digits = unit === "dB" ? 2 : 1;
  const [low, high] = extremes(test);
  const ranges = changes.flatMap((change) => rangeOf(change) ?? []);
  const amount = ({ change }: Change) => `${signed(change, digits)} ${unit}`;
  const where = (one: Change) => `${amount(one)}${test.of === "whole" ? "" : ` on ${test.of} ${one.n}`}`;
  const svg = sheet(frame, {
    name: "verdict-bar",
    title: `${testName(test)}: ${signed(low.change, digits)} to ${amount(high)}`,
    description:
      `From ${where(low)} to ${where(high)}${knownIn(test, digits)}; felt from ` +
      `${tickText(threshold)} ${unit}. The rule of thumb asks for ${asked > 0 ? "more" : "less"}. Finding: ${FINDING[test.finding]}.`,
  });
  const left = 14;
  const right = frame.width - 14;
  const middle = Math.min(frame.height / 2 + 2, frame.height - size - 12);
  const half = clamp(frame.height / 2 - size - 2, 5, 11);
  const furthest = [...changes.map(({ change }) => change), ...ranges].map(Math.abs);
  const reach = 1.12 * Math.max(1.5 * threshold, ...furthest);
  const x = scaleLinear([-reach, reach], [left, right]);
  const y = scaleLinear([-1, 1], [middle + half, middle - half]);

  const band: Point[] = [
    [x(-threshold), middle - half],
    [x(threshold), middle - half],
    [x(threshold), middle + half],
    [x(-threshold), middle + half],
  ];
  add(svg, "path", { d: hatchPath(band, 6, -1), stroke: colour("feel") });
  rule(svg, [left, middle], [right, middle], colour("hairline"));
  rule(svg, [x(0), middle - half], [x(0), middle + half], colour("ink"));
  const under = middle + half + size + 1;
  const limit = { size, anchor: "middle", fill: colour("muted") } as const;
  const isRoom = x(threshold) - x(-threshold) > textWidth(`−${tickText(threshold)} ${unit} `, size);
  for (const side of [-1, 1]) {
    const at = x(side * threshold);
    rule(svg, [at, middle - half], [at, middle + half + 3], colour("muted"));
    if (isRoom) write(svg, `${tickText(side * threshold, true)} ${unit}`, at, under, limit);
  }
  if (!isRoom) write(svg, `±${tickText(threshold)} ${unit}`, x(0), under, limit);

  // Which way the rule points: an open arrow at that end.
  const tip = asked > 0 ? frame.width - 2 : 2;
  add(svg, "path", {
    "data-part": "rule",
    d: polygonPath([
      [tip, middle],
      [tip - asked * 9, middle - 5],
      [tip - asked * 9, middle + 5],
    ]),
    stroke: colour("ink"),
    fill: colour("paper"),
  });
  const outermost =
    x(asked * threshold) + asked * (textWidth(`+${tickText(threshold)} ${unit}`, size) / 2 + 6);
  if (asked * (tip - outermost) > textWidth("rule", size))
    write(svg, "rule", tip, under, { size, anchor: asked > 0 ? "end" : "start" });

  rule(svg, [x(low.change), middle], [x(high.change), middle], colour("gap"), 1.5);
  for (const one of changes) {
    const { change } = one;
    const range = rangeOf(one);
    if (range) {
      const [from, to] = range.map(x);
      add(svg, "path", {
        "data-part": "uncertainty",
        d: `M${px(from)},${px(middle - 3)}V${px(middle + 3)}M${px(from)},${px(middle)}H${px(to)}M${px(to)},${px(middle - 3)}V${px(middle + 3)}`,
        stroke: colour("gap"),
      });
    }
    add(svg, "circle", { cx: x(change), cy: middle, r: 2.5, fill: colour("paper"), stroke: colour("gap") });
  }
  for (const { change } of [low, high])
    add(svg, "circle", { cx: x(change), cy: middle, r: 4, fill: colour("gap") });
  labelExtremes();
  return { svg, x, y, plot: { left, right, top: middle - half, bottom: middle + half } };

  /** Both ends where there is room for both; else the one that goes further. */
  function labelExtremes(): void {
    const room = (one: Change) => textWidth(amount(one), size) / 2;
    const place = (one: Change) => clamp(x(one.change), room(one), frame.width - room(one));
    const further = Math.abs(low.change) > Math.abs(high.change) ? low : high;
    const isRoom = place(high) - room(high) > place(low) + room(low) + 4;
    for (const one of isRoom ? [low, high] : [further])
      write(svg, amount(one), place(one), middle - half - 3, {
        size,
        anchor: "middle",
        fill: colour("gap"),
        weight: 600,
      });
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
): Table {
  return {
    columns: [
      "test",
      "of",
      "number",
      "change",
      "from",
      "to",
      "unit",
      "felt from",
      "rule asks for",
      "finding of the test",
      "rule of thumb",
    ],
    rows: claims.flatMap(({ rule, tests }) =>
      tests.flatMap((test) => {
        const { of, changes, threshold, unit, asked, finding } = test;
        return changes.map((change) => [
          testName(test),
          of,
          of === "whole" ? "" : change.n,
          change.change,
          ...(rangeOf(change) ?? ["", ""]),
          unit,
          threshold,
          asked > 0 ? "more" : "less",
          FINDING[finding],
          rule,
        ]);
      }),
    ),
  };
}
