/**
 * Where a steady stream loses its pressure, part by part down the bore, each part's bar beginning where the one before
 * ended; and under it the gap alone, so much enlarged that its three figures can be told apart at both gaps.
 */
import { scaleLinear, ticks } from "d3";
import type { Resistance } from "../../study/blown/resistance.ts";
import type { ResistanceChange } from "../../study/blown/resistanceChange.ts";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits, percent } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom } from "../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  px,
  referenceDash,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { inUnit, tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

const rowPx = 24;
const barPx = 13;

const headRoom = (large: number): number => large + 14;

export const flowHeight = ({ chosen }: ResistanceChange, width: number): number => {
  const { small, large } = typeSizes({ width, height: 0, unit: "mm" });
  return 2 * (headRoom(large) + bottomAxisRoom(small)) + (chosen.parts.length + 2) * rowPx + 16;
};

export function flowChart(change: ResistanceChange, frame: Frame): Drawing {
  const { chosen, reference } = change;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "flow-chart",
    title: `Pressure drop of a steady stream, ${chosen.litresPerMinute} L/min`,
    description: describe(change, frame.unit),
  });
  const left = 10 + textWidth("reference", small);
  const top = headRoom(large);
  const plot: Box = { left, right: frame.width - 4, top, bottom: top + chosen.parts.length * rowPx };
  const whole = Math.max(chosen.dropPa.estimate, reference.dropPa.estimate);
  const beside = textWidth("999.9 Pa 100 %", small);
  const x = scaleLinear([0, whole > 0 ? whole : 1], [plot.left, plot.right - beside]);
  const y = scaleLinear([0, chosen.parts.length], [plot.top, plot.bottom]);

  write(svg, `Pressure drop at ${chosen.litresPerMinute} L/min`, 0, large, { size: large, weight: 600 });
  let lost = 0;
  chosen.parts.forEach(({ part, dropPa, share }, i) => {
    const middle = y(i + 0.5);
    const isGap = part === "gap";
    const [from, to] = [x(lost), x(lost + dropPa)];
    write(svg, part, left - 8, middle + 0.36 * small, {
      size: small,
      anchor: "end",
      ...(isGap && { fill: colour("gap"), weight: 600 }),
    });
    add(svg, "rect", {
      "data-part": part,
      x: from,
      y: middle - barPx / 2,
      width: Math.max(1, to - from),
      height: barPx,
      fill: colour(isGap ? "gap" : "muted"),
    });
    if (i < chosen.parts.length - 1) rule(svg, [to, middle], [to, y(i + 1.5)], colour("hairline"));
    write(
      svg,
      dropPa < LEAST_PA ? pascals(dropPa) : `${pascals(dropPa)} · ${sharePercent(share)}`,
      to + 6,
      middle + 0.36 * small,
      {
        size: small,
        halo: true,
        ...(isGap && { fill: colour("gap"), weight: 600 }),
      },
    );
    lost += dropPa;
  });
  axis(svg, x, plot, "Pa from the rim on", small);

  const lower = plot.bottom + bottomAxisRoom(small) + 8;
  gapAlone(svg, change, frame, { left, top: lower });
  return { svg, x, y, plot };
}

/** Both gaps, each from its lower bound to its upper, the estimate a mark. */
function gapAlone(
  svg: SVGSVGElement,
  { chosen, reference }: ResistanceChange,
  frame: Frame,
  { left, top }: { readonly left: number; readonly top: number },
): void {
  const { small, large } = typeSizes(frame);
  const plot: Box = {
    left,
    right: frame.width - 4,
    top: top + headRoom(large),
    bottom: top + headRoom(large) + 2 * rowPx,
  };
  const most = Math.max(chosen.gap.dropPa.upper, reference.gap.dropPa.upper);
  const beside = textWidth("9.99 Pa", small);
  const x = scaleLinear([0, most > 0 ? most : 1], [plot.left, plot.right - beside]);
  const times = most > 0 ? Math.round(chosen.dropPa.estimate / most) : 1;
  const title = times > 1 ? `The gap alone, ${times} times enlarged` : "The gap alone";
  write(svg, title, 0, top + large, { size: large, weight: 600 });
  (
    [
      ["chosen", chosen, "gap"],
      ["reference", reference, "reference"],
    ] as const
  ).forEach(([name, { gap }, token], i) => {
    const middle = plot.top + (i + 0.5) * rowPx;
    const { lower, estimate, upper } = gap.dropPa;
    write(svg, name, left - 8, middle + 0.36 * small, { size: small, anchor: "end", fill: colour(token) });
    const [from, to] = [x(lower), x(upper)];
    const group = add(svg, "g", { "data-bounds": name });
    add(group, "path", {
      d: `M${px(from)},${px(middle)}H${px(to)}`,
      stroke: colour(token),
      "stroke-width": 1.5,
      "stroke-dasharray": token === "reference" ? referenceDash : undefined,
    });
    add(group, "path", {
      d: `M${px(from)},${px(middle - 6)}v12M${px(to)},${px(middle - 6)}v12`,
      stroke: colour(token),
      "stroke-width": 1.5,
    });
    add(group, "circle", {
      cx: x(estimate),
      cy: middle,
      r: 4.5,
      fill: colour(token === "gap" ? "gap" : "paper"),
      stroke: colour(token),
      "stroke-width": 1.5,
    });
    write(svg, pascals(estimate), to + 8, middle + 0.36 * small, {
      size: small,
      fill: colour(token),
      weight: 600,
    });
  });
  axis(svg, x, plot, "Pa: all of the jet caught – as it spreads – none caught", small);
}

function axis(svg: SVGSVGElement, x: Scale, plot: Box, title: string, size: number): void {
  const [low, high] = x.domain();
  const [from, to] = x.range();
  const marks = ticks(low, high, clamp(Math.floor((to - from) / 70), 2, 8));
  bottomAxis(
    svg,
    x,
    { ...plot, right: to },
    marks.map((value) => ({ value, text: tickText(value) })),
    "",
    size,
  );
  write(svg, title, plot.right, plot.bottom + 2 * size + 8, { size, anchor: "end", fill: colour("muted") });
}

export function flowTable({ chosen, reference }: ResistanceChange, unit: LengthUnit): Table {
  const of = (name: string, { parts, gap }: Resistance) =>
    parts.map(({ part, entryMm, exitMm, reynolds, regimes, frictionPa, areaChangePa, dropPa, share }) => [
      name,
      part,
      inUnit(entryMm, unit),
      inUnit(exitMm, unit),
      ...reynolds,
      regimes[0] === regimes[1] ? regimes[0] : regimes.join(" to "),
      frictionPa,
      areaChangePa,
      part === "gap" ? gap.dropPa.lower : dropPa,
      dropPa,
      part === "gap" ? gap.dropPa.upper : dropPa,
      100 * share,
    ]);
  return {
    columns: [
      "gap",
      "part",
      `from (${unit})`,
      `to (${unit})`,
      "Reynolds from",
      "Reynolds to",
      "regime",
      "friction (Pa)",
      "area change (Pa)",
      "least (Pa)",
      "drop (Pa)",
      "most (Pa)",
      "share (%)",
    ],
    rows: [...of("chosen", chosen), ...of("reference", reference)],
  };
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
    `At ${chosen.litresPerMinute} L/min and a gap of ${bothUnits(chosen.gapMm, unit)} the stream loses ${pascals(chosen.dropPa.estimate)} from the rim to the room, ` +
    `most of it in the ${largest.part} (${sharePercent(largest.share)}). The gap takes ${pascals(estimate)}, between ${pascals(lower)} and ${pascals(upper)}: ` +
    `${sharePercent(chosen.gap.share.estimate)} of the whole; at the reference gap of ${bothUnits(reference.gapMm, unit)} ${pascals(reference.gap.dropPa.estimate)}.`
  );
}

export const flowFigure: Figure<ResistanceChange> = {
  name: "pressure-drop",
  label: "Pressure drop of a steady stream, part by part",
  about:
    "Each bar is what one part of the bore takes of the pressure that drives the stream, from the rim to the room. The gap's " +
    "jet is either caught whole by the leadpipe (least), or spreads a little on the way (estimate), or fills the cavity and " +
    "enters the leadpipe anew (most). The table has the Reynolds numbers and whether the stream is laminar or turbulent.",
  caption: () => "All parts but the gap are the same at both gaps.",
  height: (width, data) => (data ? flowHeight(data, width) : 360),
  draw: flowChart,
  table: flowTable,
};
