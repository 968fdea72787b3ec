/**
 * Where a steady stream loses its pressure, part by part down the bore, each part's bar beginning where the one before
 * ended; and under it the gap alone, so much enlarged that its three figures can be told apart at both gaps.
 */
import { scaleLinear } from "d3";
import type { Resistance } from "../../study/blown/resistance.ts";
import type { ResistanceChange } from "../../study/blown/resistanceChange.ts";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits, percent } from "../../words/numbers.ts";
import { bottomAxis } from "../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { heading } from "../kit/labels/text.ts";
import { ring } from "../kit/marks/dot.ts";
import { intervalPath } from "../kit/marks/intervalBar.ts";
import { referenceDash } from "../kit/marks/line.ts";
import { bottomAxisRoom, label, type Panel } from "../kit/panel.ts";
import { lengthColumn, tableOf } from "../kit/table.ts";
import { marksIn, roundTicks } from "../kit/ticks.ts";

const rowPx = 24;
const barPx = 13;

const headRoom = (large: number): number => large + 14;

export const flowHeight = ({ chosen }: ResistanceChange, width: number): number => {
  const { small, large } = typeSizes({ width });
  return 2 * (headRoom(large) + bottomAxisRoom(small)) + (chosen.parts.length + 2) * rowPx + 16;
};

export function flowChart(change: ResistanceChange, frame: Frame): Drawing {
  const { chosen, reference } = change;
  const { parts, litresPerMinute } = chosen;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "flow-chart",
    title: `Pressure drop of a steady air flow, ${litresPerMinute} L/min`,
    description: describe(change, frame.unit),
  });
  const left = 10 + textWidth("compared with", small);
  const top = headRoom(large);
  const plot: Box = { left, right: frame.width - 4, top, bottom: top + parts.length * rowPx };
  const whole = Math.max(chosen.dropPa.estimate, reference.dropPa.estimate);
  const beside = textWidth("999.9 Pa 100 %", small);
  const x = scaleLinear([0, whole > 0 ? whole : 1], [left, plot.right - beside]);
  const y = scaleLinear([0, parts.length], [top, plot.bottom]);
  const on: Panel = { parent: svg, x, y, plot, size: small };

  heading(svg, `Pressure drop at ${litresPerMinute} L/min`, large);
  let lost = 0;
  parts.forEach(({ part, dropPa, boundsPa, share }, i) => {
    const middle = y(i + 0.5);
    const row = middle + 0.36 * small;
    const style = part === "gap" ? ({ fill: "gap", weight: 600 } as const) : {};
    const [from, to] = [x(lost), x(lost + dropPa)];
    label(on, part, left - 8, row, { anchor: "end", ...style });
    add(svg, "rect", {
      "data-part": part,
      x: from,
      y: middle - barPx / 2,
      width: Math.max(1, to - from),
      height: barPx,
      fill: part === "gap" ? "gap" : "muted",
    });
    const [low, high] = boundsPa;
    const reach = Math.min(x(lost + high), plot.right);
    // where an edge decides: from the least it may be to the most, off the paper where that is far
    if (part !== "gap" && high - low > LEAST_PA)
      add(svg, "path", {
        "data-bounds": part,
        d: intervalPath({ ends: [x(lost + low), reach], at: middle + barPx / 2 + 2, cap: 2 }).bar,
        stroke: "muted",
        "stroke-width": 1.5,
      });
    if (i < parts.length - 1) rule(svg, [to, middle], [to, y(i + 1.5)], "hairline");
    const words = dropPa < LEAST_PA ? pascals(dropPa) : `${pascals(dropPa)} · ${sharePercent(share)}`;
    label(on, words, to + 6, row, { halo: true, ...style });
    lost += dropPa;
  });
  axis(on, "Pa from the rim on");
  gapAlone(svg, change, frame, { left, top: plot.bottom + bottomAxisRoom(small) + 8 });
  return { svg, x, y, plot };
}

/** Both gaps, each from its lower bound to its upper, the estimate a mark. */
function gapAlone(
  svg: SVGSVGElement,
  { chosen, reference }: ResistanceChange,
  frame: Frame,
  { left, top: above }: { readonly left: number; readonly top: number },
): void {
  const { small, large } = typeSizes(frame);
  const top = above + headRoom(large);
  const plot: Box = { left, right: frame.width - 4, top, bottom: top + 2 * rowPx };
  const most = Math.max(chosen.gap.dropPa.upper, reference.gap.dropPa.upper);
  const x = scaleLinear([0, most > 0 ? most : 1], [left, plot.right - textWidth("9.99 Pa", small)]);
  const on = { parent: svg, x, plot, size: small };
  const times = most > 0 ? Math.round(chosen.dropPa.estimate / most) : 1;
  const title = times > 1 ? `The gap alone, ${times} times enlarged` : "The gap alone";
  write(svg, title, 0, above + large, { size: large, weight: 600 });
  for (const [name, { gap }, stroke, middle] of [
    ["what if", chosen, "gap", top + 0.5 * rowPx],
    ["compared with", reference, "reference", top + 1.5 * rowPx],
  ] as const) {
    const { lower, estimate, upper } = gap.dropPa;
    const row = middle + 0.36 * small;
    label(on, name, left - 8, row, { anchor: "end", fill: stroke });
    const group = add(svg, "g", { "data-bounds": stroke === "gap" ? "chosen" : "reference" });
    const { bar, caps } = intervalPath({ ends: [x(lower), x(upper)], at: middle, cap: 6 });
    const dash = stroke === "reference" ? referenceDash : undefined;
    add(group, "path", { d: bar, stroke, "stroke-width": 1.5, "stroke-dasharray": dash });
    add(group, "path", { d: caps, stroke, "stroke-width": 1.5 });
    ring(group, [x(estimate), middle], 4.5, stroke, stroke === "gap" ? "gap" : "paper");
    label(on, pascals(estimate), x(upper) + 8, row, { fill: stroke, weight: 600 });
  }
  axis(on, "Pa: all of the jet caught – as it spreads – none caught");
}

/** The line ends with the scale, its title with the sheet. */
function axis(on: Omit<Panel, "y">, title: string): void {
  const { x, plot, size } = on;
  const [from, to] = x.range();
  bottomAxis({ ...on, plot: { ...plot, right: to } }, roundTicks(x, marksIn(to - from, 70, 2, 8)), "");
  label(on, title, plot.right, plot.bottom + 2 * size + 8, { anchor: "end", fill: "muted" });
}

export function flowTable({ chosen, reference }: ResistanceChange, unit: LengthUnit): Table {
  const of = (name: string, { parts }: Resistance) => parts.map((part) => ({ name, ...part }));
  return tableOf(
    [...of("what if", chosen), ...of("compared with", reference)],
    [
      ["gap", ({ name }) => name],
      ["part", ({ part }) => part],
      lengthColumn("from", unit, ({ entryMm }) => entryMm),
      lengthColumn("to", unit, ({ exitMm }) => exitMm),
      ["Reynolds from", ({ reynolds }) => reynolds[0]],
      ["Reynolds to", ({ reynolds }) => reynolds[1]],
      ["regime", ({ regimes }) => [...new Set(regimes)].join(" to ")],
      ["friction (Pa)", ({ frictionPa }) => frictionPa],
      ["area change (Pa)", ({ areaChangePa }) => areaChangePa],
      ["least (Pa)", ({ boundsPa }) => boundsPa[0]],
      ["drop (Pa)", ({ dropPa }) => dropPa],
      ["most (Pa)", ({ boundsPa }) => boundsPa[1]],
      ["share (%)", ({ share }) => 100 * share],
    ],
  );
}

/** Less is not worth its digits. */
const LEAST_PA = 0.005;

const pascals = (value: number): string =>
  value > 0 && value < LEAST_PA ? "under 0.01 Pa" : `${value.toFixed(value < 10 ? 2 : 1)} Pa`;

/** A tenth of a percent where a whole one would round a part away. */
export const sharePercent = (share: number): string =>
  share >= 0.1 || share === 0 ? percent(share) : `${(100 * share).toFixed(share < 0.001 ? 2 : 1)} %`;

function describe({ chosen, reference }: ResistanceChange, unit: LengthUnit): string {
  const { lower, estimate, upper } = chosen.gap.dropPa;
  const largest = [...chosen.parts].sort((a, b) => b.dropPa - a.dropPa)[0];
  return (
    `At ${chosen.litresPerMinute} L/min and a gap of ${bothUnits(chosen.gapMm, unit)} the air flow loses ${pascals(chosen.dropPa.estimate)} from the rim to the room, ` +
    `most of it in the ${largest.part} (${sharePercent(largest.share)}). The gap takes ${pascals(estimate)}, between ${pascals(lower)} and ${pascals(upper)}: ` +
    `${sharePercent(chosen.gap.share.estimate)} of the whole; at ${bothUnits(reference.gapMm, unit)}, compared with, ${pascals(reference.gap.dropPa.estimate)}.`
  );
}

export const flowFigure: Figure<ResistanceChange> = {
  name: "pressure-drop",
  label: "Pressure drop of a steady air flow, part by part",
  about:
    "Each bar is what one part of the bore takes of the pressure that drives the air, from the rim to the room. The gap's " +
    "jet is either caught whole by the leadpipe (least), or spreads a little on the way (estimate), or fills the cavity and " +
    "enters the leadpipe afresh (most). The thin line under the cup is what it costs from a well rounded edge at the throat to a " +
    "sharp one. The table has the Reynolds numbers and whether the flow is laminar or turbulent.",
  caption: () => "All parts but the gap are the same at both gaps.",
  height: (width, data) => (data ? flowHeight(data, width) : 360),
  draw: flowChart,
  table: flowTable,
};
