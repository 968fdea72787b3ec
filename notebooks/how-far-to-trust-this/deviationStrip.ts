/**
 * How far off every value is, in what a player could notice of it: cents of a note, dB of a peak, per cent of a pressure. A row a
 * check; the hatched part is too small to notice, and what agrees to the last digit stands at its left edge.
 */
import { scaleLog } from "d3";
import { bottomAxis } from "../../src/charts/kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  rule,
  sheet,
  textWidth,
  typeSizes,
  write,
} from "../../src/charts/kit/drawing.ts";
import { hatched, rectangle } from "../../src/charts/kit/marks/band.ts";
import { dot, ring } from "../../src/charts/kit/marks/dot.ts";
import { bottomAxisRoom } from "../../src/charts/kit/panel.ts";
import { ticksAt } from "../../src/charts/kit/ticks.ts";
import { TOO_SMALL } from "../../src/words/verdicts/findings.ts";
import type { Outcome } from "./check.ts";
import { NOTICED, type Quantity } from "./heard.ts";
import { heardWords } from "./words.ts";

/** Ends of the scale over what is just noticeable. */
const LEAST = 1e-6;
const MOST = 4;
const AXIS: Readonly<Record<Quantity, string>> = {
  cents: "a note would be off by, cents",
  dB: "a peak would be off by, dB",
  "%": "a pressure would be off by, %",
};

/** The checks of which something is heard in this way. */
export const heardIn = (outcomes: readonly Outcome[], quantity: Quantity): readonly Outcome[] =>
  outcomes.filter(({ heard }) => heard[quantity] !== undefined);

/** Height that a strip of so many checks takes, px. */
export const stripHeight = (checks: number, frame: Pick<Frame, "width">): number => {
  const { small, large } = typeSizes(frame);
  return large + 30 + checks * rowHeight(small) + bottomAxisRoom(small);
};

const rowHeight = (size: number): number => 2 * size + 18;

export function deviationStrip(
  outcomes: readonly Outcome[],
  quantity: Quantity,
  title: string,
  frame: Frame,
): Drawing {
  const { small, large } = typeSizes(frame);
  const noticed = NOTICED[quantity];
  const svg = sheet(frame, {
    name: "deviation-strip",
    title,
    description: describe(outcomes, quantity, title),
  });
  const figures = outcomes.map(({ heard }) => heardWords(Math.max(...heard[quantity]!), quantity));
  const top = large + 30;
  const plot = {
    left: 1.6 * small,
    right: frame.width - Math.max(...figures.map((text) => textWidth(text, small))) - 10,
    top,
    bottom: top + outcomes.length * rowHeight(small),
  };
  const x = scaleLog([LEAST * noticed, MOST * noticed], [plot.left, plot.right]).clamp(true);
  const at = (size: number) => x(Math.max(LEAST * noticed, size));
  const ground = add(svg, "g", { "aria-hidden": "true" });
  hatched(ground, rectangle({ ...plot, right: x(noticed) }), { spacing: 9 });
  write(ground, title, 0, large, { size: large, weight: 600 });
  rule(ground, [x(noticed), plot.top - 4], [x(noticed), plot.bottom], "ink", 1.5);
  const words = `noticed from ${noticed} ${quantity} on; hatched: ${TOO_SMALL}`;
  write(ground, words, x(noticed), plot.top - 8, { size: small, anchor: "end", fill: "muted" });
  const powers = x.ticks().filter((value) => Number.isInteger(Math.round(1e6 * Math.log10(value)) / 1e6));
  bottomAxis(
    { parent: ground, x, plot, size: small },
    ticksAt(thinned(powers, plot.right - plot.left), short),
    AXIS[quantity],
  );
  outcomes.forEach(({ name, heard }, i) => {
    const row = plot.top + i * rowHeight(small);
    const cy = row + small + 15;
    const sizes = heard[quantity]!;
    write(ground, name, 0, row + small + 2, { size: small, halo: true });
    write(ground, figures[i], frame.width, cy + 0.36 * small, {
      size: small,
      anchor: "end",
      fill: "gap",
      weight: 600,
    });
    rule(ground, [plot.left, cy], [plot.right, cy], "hairline");
    for (const size of sizes)
      ring(ground, [at(size), cy], 3, "muted", "transparent", { "stroke-opacity": "0.55" });
    dot(ground, [at(Math.max(...sizes)), cy], 4.5, "gap", { stroke: "paper" });
  });
  return { svg, x, y: x, plot };
}

const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";
/** A power of ten. */
function short(value: number): string {
  const power = Math.round(Math.log10(value));
  if (power >= -2) return `${Number(value.toPrecision(1))}`;
  return `10⁻${[...`${-power}`].map((digit) => superscripts[Number(digit)]).join("")}`;
}

const thinned = (values: readonly number[], width: number): readonly number[] =>
  values.filter((_, i) => (values.length - 1 - i) % Math.ceil((60 * values.length) / width) === 0);

const describe = (outcomes: readonly Outcome[], quantity: Quantity, title: string): string =>
  `${title}. Noticed from ${NOTICED[quantity]} ${quantity}. ${outcomes
    .map(({ name, heard }) => `${name}: at most ${heardWords(Math.max(...heard[quantity]!), quantity)}.`)
    .join(" ")}`;
