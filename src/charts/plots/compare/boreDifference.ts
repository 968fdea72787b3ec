/**
 * Bores over one another, far wider than they are long, since what matters could not be seen else; below them by how much each
 * is wider than the reference. Both along one axis.
 */
import { scaleLinear, ticks } from "d3";
import { boreDiameterMm } from "../../../setup/boreDiameter.ts";
import { profileLengthMm } from "../../../setup/geometry.ts";
import type { ProfileMm } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  rule,
  type Scale,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { inUnit, lengthTicks, tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";
import {
  drawKey,
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
  const { small, large } = typeSizes({ width, height: 0, unit: "mm" });
  return headRoom(variants, width, small, large) + boresPx + betweenPx + differencePx + bottomAxisRoom(small);
};

const headRoom = (variants: readonly Variant[], width: number, small: number, large: number): number =>
  large + 8 + keyHeight(variants, width, small) + small + 14;

export function boreDifference(data: BoreDifferenceData, frame: Frame): Drawing {
  const { variants, part, reference } = data;
  const { small, large } = typeSizes(frame);
  const top = headRoom(variants, frame.width, small, large);
  const upper: Box = { left: 4.2 * small, right: frame.width - 1.2 * small, top, bottom: top + boresPx };
  const lower: Box = {
    ...upper,
    top: upper.bottom + betweenPx,
    bottom: upper.bottom + betweenPx + differencePx,
  };
  const lengthMm = Math.max(...variants.map(({ profileMm }) => profileLengthMm(profileMm)));
  const x = scaleLinear([0, lengthMm], [upper.left, upper.right]);
  const rows = differences(data);
  const radii = variants.flatMap(({ profileMm }) => profileMm.map(([, d]) => d / 2));
  const radius = scaleLinear(padded(Math.min(...radii), Math.max(...radii)), [upper.bottom, upper.top]);
  const y = scaleLinear(padded(Math.min(0, ...rows.flatMap(finite)), Math.max(0, ...rows.flatMap(finite))), [
    lower.bottom,
    lower.top,
  ]);
  const exaggeration = scaleText(Math.abs(radius(1) - radius(0)) / (x(1) - x(0)));
  const svg = sheet(frame, {
    name: "bore-difference",
    title: `The ${part}s over one another`,
    description: describe(data, rows, frame),
  });
  write(svg, `The ${part}s, radii drawn ${exaggeration} × the length`, 0, large, {
    size: large,
    weight: 600,
  });
  drawKey(svg, variants, data, large + 8, frame.width, small);
  write(svg, `radius, ${frame.unit}`, 0, upper.top - 8, { size: small, fill: colour("muted") });
  write(svg, `diameter less that of ${reference}, ${frame.unit}`, 0, lower.top - 8, {
    size: small,
    fill: colour("muted"),
  });
  for (const [scale, box, plus] of [
    [radius, upper, false],
    [y, lower, true],
  ] as const)
    leftAxis(svg, scale, box, lengthTicksAt(scale, frame, plus), small, true);
  rule(svg, [lower.left, y(0)], [lower.right, y(0)], colour("muted"), 1);
  bottomAxis(
    svg,
    x,
    lower,
    lengthTicks(x, ticks, frame.unit, Math.max(3, Math.floor((x.range()[1] - x.range()[0]) / 80))).map(
      ({ mm, text }) => ({ value: mm, text }),
    ),
    `from the ${part}'s start, ${frame.unit}`,
    small,
  );
  for (const variant of inDrawingOrder(variants, data)) {
    const { profileMm, number } = variant;
    const start = profileMm[0][0];
    const wall = profileMm.map(([at, d]) => `${x(at - start).toFixed(1)},${radius(d / 2).toFixed(1)}`);
    add(svg, "path", {
      "data-part": "wall",
      "data-variant": `${number}`,
      d: `M${wall.join("L")}`,
      ...strokeOf(variant, data),
    });
    if (number === reference) continue;
    const row = rows[variants.indexOf(variant)];
    const points = row.flatMap((by, i) =>
      by === null ? [] : [`${x(placeMm(i, lengthMm)).toFixed(1)},${y(by).toFixed(1)}`],
    );
    if (points.length > 1)
      add(svg, "path", {
        "data-part": "difference",
        "data-variant": `${number}`,
        d: `M${points.join("L")}`,
        ...strokeOf(variant, data),
      });
  }
  return { svg, x, y, plot: lower };
}

const placeMm = (i: number, lengthMm: number): number => (i / (POINTS - 1)) * lengthMm;

/** Diameter less the reference's at even places, mm; null beyond the shorter of the two. */
function differences({ variants, reference }: BoreDifferenceData): (number | null)[][] {
  const base = variants.find(({ number }) => number === reference) ?? variants[0];
  const lengthMm = Math.max(...variants.map(({ profileMm }) => profileLengthMm(profileMm)));
  const at = ({ profileMm }: BoreVariant, mm: number): number | null =>
    mm > profileLengthMm(profileMm) + 1e-9 ? null : boreDiameterMm(profileMm, profileMm[0][0] + mm);
  return variants.map((variant) =>
    Array.from({ length: POINTS }, (_, i) => {
      const [own, other] = [variant, base].map((one) => at(one, placeMm(i, lengthMm)));
      return own === null || other === null ? null : own - other;
    }),
  );
}

const finite = (row: readonly (number | null)[]): number[] => row.filter((by) => by !== null);

function padded(low: number, high: number): [number, number] {
  const room = Math.max(0.06 * (high - low), 0.01);
  return [low - room, high + room];
}

/** Two figures: a scale is no measurement. */
const scaleText = (ratio: number): string => `${Number(ratio.toPrecision(2))}`;

const lengthTicksAt = (scale: Scale, { unit }: Frame, plus: boolean) =>
  lengthTicks(scale, ticks, unit, 5).map(({ mm }) => ({ value: mm, text: tickText(inUnit(mm, unit), plus) }));

export const boreDifferenceTable = (data: BoreDifferenceData, unit: Frame["unit"]): Table => {
  const rows = differences(data);
  const lengthMm = Math.max(...data.variants.map(({ profileMm }) => profileLengthMm(profileMm)));
  const shown = [...Array(POINTS).keys()].filter((i) => i % 8 === 0 || i === POINTS - 1);
  return {
    columns: [
      `from the start (${unit})`,
      ...data.variants.map(
        ({ number, name }) => `${number} ${name}: diameter less that of ${data.reference} (${unit})`,
      ),
    ],
    rows: shown.map((i) => [
      inUnit(placeMm(i, lengthMm), unit),
      ...rows.map((row) => {
        const by = row[i];
        return by === null ? "" : inUnit(by, unit);
      }),
    ]),
  };
};

function describe(
  { variants, reference, part }: BoreDifferenceData,
  rows: readonly (number | null)[][],
  { unit }: Frame,
): string {
  const lengthMm = Math.max(...variants.map(({ profileMm }) => profileLengthMm(profileMm)));
  const found = variants.flatMap(({ number, name }, v) => {
    if (number === reference) return [];
    const most = rows[v].reduce<number>(
      (best, by, i) => (Math.abs(by ?? 0) > Math.abs(rows[v][best] ?? 0) ? i : best),
      0,
    );
    const by = rows[v][most] ?? 0;
    if (Math.abs(by) < 5e-4) return [`${number} ${name} is as wide throughout`];
    return [
      `${number} ${name} is ${signed(inUnit(by, unit), unit === "mm" ? 3 : 4)} ${unit} wider at ${formatLength(placeMm(most, lengthMm), unit)}`,
    ];
  });
  return `Against the ${part} of variant ${reference}: ${found.join("; ") || "there is no other"}.`;
}

export const boreDifferenceFigure: Figure<BoreDifferenceData> = {
  name: "bores",
  label: "The bores over one another",
  about:
    "Above, the inner wall from the axis outwards, radii drawn far larger than lengths. Below, how much wider each bore is than " +
    "the reference's at the same distance from the part's start; a longer one ends where the other ends.",
  caption: () => "Dashed blue: the reference. Where only that is seen, the bores are alike.",
  height: (width, data) => (data ? boreDifferenceHeight(data, width) : 0),
  draw: boreDifference,
  table: boreDifferenceTable,
};
