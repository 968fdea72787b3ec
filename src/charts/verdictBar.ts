/** One test of a verdict as a small bar: the change, the spread over the resonances, and what would be large enough to feel. */
import { scaleLinear } from "d3";
import type { Test } from "../study/verdicts.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  rule,
  sheet,
  type Table,
  textWidth,
  write,
} from "./drawing.ts";
import { hatchPath } from "./hatch.ts";
import { signed, tickText } from "./numbers.ts";
import { colour } from "./tokens.ts";

const size = 12;

export function verdictBar(test: Test, frame: Frame): Drawing {
  const { change, range, threshold, unit, asked } = test;
  const digits = unit === "dB" ? 2 : 1;
  const svg = sheet(frame, {
    name: "verdict-bar",
    title: `${test.name}: ${signed(change, digits)} ${unit}`,
    description:
      `On average ${signed(change, digits)} ${unit}, from ${signed(range[0], digits)} to ${signed(range[1], digits)} ${unit} ` +
      `over the played resonances; felt from ${tickText(threshold)} ${unit}. The rule of thumb asks for ` +
      `${asked > 0 ? "more" : "less"}. Finding: ${test.finding}.`,
  });
  const left = 14;
  const right = frame.width - 14;
  const middle = Math.min(frame.height / 2 + 2, frame.height - size - 12);
  const half = clamp(frame.height / 2 - size - 2, 5, 11);
  const reach = 1.12 * Math.max(1.5 * threshold, Math.abs(change), Math.abs(range[0]), Math.abs(range[1]));
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
  for (const side of [-1, 1]) {
    const at = x(side * threshold);
    rule(svg, [at, middle - half], [at, middle + half + 3], colour("muted"));
    write(svg, `${tickText(side * threshold, true)} ${unit}`, at, under, {
      size,
      anchor: "middle",
      fill: colour("muted"),
    });
  }

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

  const [low, high] = [x(range[0]), x(range[1])];
  rule(svg, [low, middle], [high, middle], colour("gap"), 1.5);
  for (const at of [low, high]) rule(svg, [at, middle - 4], [at, middle + 4], colour("gap"), 1.5);
  add(svg, "circle", { cx: x(change), cy: middle, r: 4.5, fill: colour("gap") });
  const text = `${signed(change, digits)} ${unit}`;
  const room = textWidth(text, size) / 2;
  write(svg, text, clamp(x(change), room, frame.width - room), middle - half - 3, {
    size,
    anchor: "middle",
    fill: colour("gap"),
    weight: 600,
  });
  return { svg, x, y, plot: { left, right, top: middle - half, bottom: middle + half } };
}

export function verdictTable(tests: readonly Test[]): Table {
  return {
    columns: [
      "test",
      "mean change",
      "smallest change",
      "largest change",
      "felt from",
      "unit",
      "rule asks for",
      "finding",
    ],
    rows: tests.map(({ name, change, range, threshold, unit, asked, finding }) => [
      name,
      change,
      range[0],
      range[1],
      threshold,
      unit,
      asked > 0 ? "more" : "less",
      finding,
    ]),
  };
}
