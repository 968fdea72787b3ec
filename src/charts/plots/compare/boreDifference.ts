/**
 * Bores over one another, far wider than they are long, since what matters could not be seen else; below them by how much each
 * is wider than the reference. Both along one axis.
 */
import { scaleLinear } from "d3";
import { boreDiameterMm } from "../../../setup/bore/boreDiameter.ts";
import { profileLengthMm } from "../../../setup/geometry.ts";
import type { ProfileMm } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  sheet,
  type Table,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { heading } from "../../kit/labels/text.ts";
import { levelLine, polyline } from "../../kit/marks/line.ts";
import { inUnit } from "../../kit/numbers.ts";
import { bottomAxisRoom, label, type Panel, widthOf } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, signedText } from "../../kit/ticks.ts";
import {
  drawVariants,
  inDrawingOrder,
  keyHeight,
  type Standing,
  strokeOf,
  type Variant,
} from "./compareSeries.ts";

export interface BoreVariant extends Variant {
  readonly profileMm: ProfileMm;
}

export interface BoreDifferenceData extends Standing {
  /** `leadpipe` */
  readonly part: string;
  readonly variants: readonly BoreVariant[];
}

const boresPx = 170;
const differencePx = 120;
const betweenPx = 34;
const POINTS = 240;

export const boreDifferenceHeight = ({ variants }: BoreDifferenceData, width: number): number => {
  const { small, large } = typeSizes({ width });
  return headRoom(variants, width, small, large) + boresPx + betweenPx + differencePx + bottomAxisRoom(small);
};

const headRoom = (variants: readonly Variant[], width: number, small: number, large: number): number =>
  large + 8 + keyHeight(variants, width, small) + small + 14;

export function boreDifference(data: BoreDifferenceData, frame: Frame): Drawing {
  const { variants, part, reference } = data;
  const { small, large } = typeSizes(frame);
  const { unit } = frame;
  const top = headRoom(variants, frame.width, small, large);
  const upper: Box = { left: 4.2 * small, right: frame.width - 1.2 * small, top, bottom: top + boresPx };
  const under = upper.bottom + betweenPx;
  const lower: Box = { ...upper, top: under, bottom: under + differencePx };
  const x = scaleLinear([0, longestMm(data)], [upper.left, upper.right]);
  const rows = differences(data);
  const radii = variants.flatMap(({ profileMm }) => profileMm.map(([, d]) => d / 2));
  const radius = scaleLinear(padded(Math.min(...radii), Math.max(...radii)), [upper.bottom, upper.top]);
  const apart = rows.flat().filter((by) => by !== null);
  const y = scaleLinear(padded(Math.min(0, ...apart), Math.max(0, ...apart)), [lower.bottom, lower.top]);
  // two figures: a scale is no measurement
  const exaggeration = Number((Math.abs(radius(1) - radius(0)) / (x(1) - x(0))).toPrecision(2));
  const svg = sheet(frame, {
    name: "bore-difference",
    title: `The ${part}s over one another`,
    description: describe(data, rows, frame),
  });
  const bores: Panel = { parent: svg, x, y: radius, plot: upper, size: small };
  const on: Panel = { ...bores, y, plot: lower };
  heading(svg, `The ${part}s, radii drawn ${exaggeration} × the length`, large);
  drawVariants(svg, variants, data, large + 8, frame.width, small);
  label(on, `radius, ${unit}`, 0, upper.top - 8, { fill: "muted" });
  label(on, `diameter less that of ${reference}, ${unit}`, 0, lower.top - 8, { fill: "muted" });
  leftAxis(bores, lengthTicks(radius, unit, 5), true);
  leftAxis(on, lengthTicks(y, unit, 5, signedText), true);
  levelLine(on, 0, "muted");
  const marks = Math.max(3, Math.floor(widthOf(lower) / 80));
  bottomAxis(on, lengthTicks(x, unit, marks), `from the ${part}'s start, ${unit}`);
  for (const variant of inDrawingOrder(variants, data)) {
    const { profileMm, number } = variant;
    const start = profileMm[0][0];
    const draw = (part: string, points: readonly Point[]) =>
      add(svg, "path", {
        "data-part": part,
        "data-variant": `${number}`,
        d: polyline(points),
        ...strokeOf(variant, data),
      });
    draw(
      "wall",
      profileMm.map(([at, d]) => [x(at - start), radius(d / 2)]),
    );
    if (number === reference) continue;
    const points = rows[variants.indexOf(variant)].flatMap((by, i): Point[] =>
      by === null ? [] : [[x(placeMm(i, longestMm(data))), y(by)]],
    );
    if (points.length > 1) draw("difference", points);
  }
  return { svg, x, y, plot: lower };
}

const longestMm = ({ variants }: BoreDifferenceData): number =>
  Math.max(...variants.map(({ profileMm }) => profileLengthMm(profileMm)));

const placeMm = (i: number, lengthMm: number): number => (i / (POINTS - 1)) * lengthMm;

/** Diameter less the reference's at even places, mm; null beyond the shorter of the two. */
function differences(data: BoreDifferenceData): (number | null)[][] {
  const { variants, reference } = data;
  const base = variants.find(({ number }) => number === reference) ?? variants[0];
  const at = ({ profileMm }: BoreVariant, mm: number): number | null =>
    mm > profileLengthMm(profileMm) + 1e-9 ? null : boreDiameterMm(profileMm, profileMm[0][0] + mm);
  return variants.map((variant) =>
    Array.from({ length: POINTS }, (_, i) => {
      const [own, other] = [variant, base].map((one) => at(one, placeMm(i, longestMm(data))));
      return own === null || other === null ? null : own - other;
    }),
  );
}

function padded(low: number, high: number): [number, number] {
  const room = Math.max(0.06 * (high - low), 0.01);
  return [low - room, high + room];
}

export const boreDifferenceTable = (data: BoreDifferenceData, unit: Frame["unit"]): Table => {
  const rows = differences(data);
  const shown = [...Array(POINTS).keys()].filter((i) => i % 8 === 0 || i === POINTS - 1);
  const against = `diameter less that of ${data.reference}`;
  return tableOf(shown, [
    lengthColumn("from the start", unit, (i) => placeMm(i, longestMm(data))),
    ...data.variants.map(({ number, name }, v) =>
      lengthColumn<number>(`${number} ${name}: ${against}`, unit, (i) => rows[v][i]),
    ),
  ]);
};

function describe(
  data: BoreDifferenceData,
  rows: readonly (readonly (number | null)[])[],
  { unit }: Frame,
): string {
  const { variants, reference, part } = data;
  const found = variants.flatMap(({ number, name }, v) => {
    if (number === reference) return [];
    const most = rows[v].reduce<number>(
      (best, by, i) => (Math.abs(by ?? 0) > Math.abs(rows[v][best] ?? 0) ? i : best),
      0,
    );
    const by = rows[v][most] ?? 0;
    if (Math.abs(by) < 5e-4) return [`${number} ${name} is as wide throughout`];
    return [
      `${number} ${name} is ${signed(inUnit(by, unit), unit === "mm" ? 3 : 4)} ${unit} wider at ${formatLength(placeMm(most, longestMm(data)), unit)}`,
    ];
  });
  return `Compared with the ${part} of candidate ${reference}: ${found.join("; ") || "there is no other"}.`;
}

export const boreDifferenceFigure: Figure<BoreDifferenceData> = {
  name: "bores",
  label: "The bores over one another",
  about:
    "Above, the inner wall from the axis outwards, radii drawn far larger than lengths. Below, how much wider each bore is than " +
    "that of the one compared with, at the same distance from the part's start; a longer one ends where the other ends.",
  caption: () => "Dashed blue: the one compared with. Where only that is seen, the bores are alike.",
  height: (width, data) => (data ? boreDifferenceHeight(data, width) : 0),
  draw: boreDifference,
  table: boreDifferenceTable,
};
