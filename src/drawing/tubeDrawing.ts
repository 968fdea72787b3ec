/** A leadpipe in section, or its mandrel, at true size; its segments with their tapers as a table. */
import type { TaperedTube, TubeSegment } from "../bench/gauges/taperedTube.ts";
import type { LengthUnit } from "../units/length.ts";
import { figures, taperCells } from "../words/bench/gauges.ts";
import {
  datum,
  lengthAlong,
  letters,
  line,
  outline,
  ROW_MM,
  SMALL_LETTERS_MM,
  type TableColumn,
  tableMarks,
} from "./dimension.ts";
import { scaleWords } from "./enlargement.ts";
import { FOOT_MM } from "./frame.ts";
import { FRAME_MM, type Mark, type Point, sheetSize } from "./sheet.ts";

const VIEW_MM = 56;
/** Between numbers of segments, mm. */
const READABLE_MM = 4;

/** @param isTube a tube with its wall; a mandrel is solid */
export function tubeDrawing(
  tube: TaperedTube,
  isTube: boolean,
  unit: LengthUnit,
): { readonly marks: Mark[]; readonly sizeMm: Point } {
  const { segments, wallMm } = tube;
  const startMm = segments[0].fromMm;
  const endMm = segments[segments.length - 1].toMm;
  const widestMm =
    Math.max(...segments.flatMap((one) => [one.fromDiameterMm, one.toDiameterMm])) + 2 * wallMm;
  const viewMm = VIEW_MM + widestMm;
  const sizeMm = sheetSize([
    Math.max(277, endMm - startMm + 14),
    viewMm + (segments.length + 1) * ROW_MM + FOOT_MM + 8,
  ]);
  const left = FRAME_MM + 7;
  const top = sizeMm[1] - FRAME_MM;
  const axis = top - 18 - widestMm / 2;
  const at = (lengthMm: number) => left + lengthMm - startMm;
  const foot = axis - widestMm / 2;
  return {
    sizeMm,
    marks: [
      letters(scaleWords(1), [left, top - 6]),
      ...(isTube ? tubeWalls(segments, wallMm, at, axis) : [solid(segments, at, axis)]),
      line("centre", [
        [at(startMm) - 5, axis],
        [at(endMm) + 5, axis],
      ]),
      ...joints(segments).flatMap((lengthMm): Mark[] => [
        line("thin", [
          [at(lengthMm), axis + widestMm / 2 + 1],
          [at(lengthMm), axis + widestMm / 2 + 5],
        ]),
      ]),
      ...numbers(segments).map(({ text, middleMm }) =>
        letters(text, [at(middleMm), axis + widestMm / 2 + 1.6], {
          anchor: "middle",
          heightMm: SMALL_LETTERS_MM,
        }),
      ),
      ...lengthAlong(
        [
          [at(startMm), foot],
          [at(endMm), foot],
        ],
        foot - 14,
        figures(endMm - startMm, unit),
      ),
      ...datum("A", [at(0), foot - 15.2]),
      ...tableMarks(
        [FRAME_MM + 6, top - viewMm],
        columns(isTube),
        segments.map((one, i) => row(one, i, wallMm, isTube, unit)),
      ),
    ],
  };
}

const joints = (segments: readonly TubeSegment[]): readonly number[] => [
  segments[0].fromMm,
  ...segments.map(({ toMm }) => toMm),
];

/** Numbers stand over their segments where there is room. */
function numbers(segments: readonly TubeSegment[]): { readonly text: string; readonly middleMm: number }[] {
  let last = Number.NEGATIVE_INFINITY;
  return segments.flatMap(({ fromMm, toMm }, i) => {
    const middleMm = (fromMm + toMm) / 2;
    if (middleMm - last < READABLE_MM) return [];
    last = middleMm;
    return [{ text: `${i + 1}`, middleMm }];
  });
}

const upperEdge = (segments: readonly TubeSegment[], outwardsMm: number): readonly Point[] => [
  [segments[0].fromMm, segments[0].fromDiameterMm / 2 + outwardsMm],
  ...segments.map(({ toMm, toDiameterMm }): Point => [toMm, toDiameterMm / 2 + outwardsMm]),
];

function solid(segments: readonly TubeSegment[], at: (mm: number) => number, axis: number): Mark {
  const upper = upperEdge(segments, 0);
  return outline([
    ...upper.map(([x, r]): Point => [at(x), axis + r]),
    ...upper.map(([x, r]): Point => [at(x), axis - r]).reverse(),
  ]);
}

function tubeWalls(
  segments: readonly TubeSegment[],
  wallMm: number,
  at: (mm: number) => number,
  axis: number,
): Mark[] {
  return ([1, -1] as const).flatMap((side) => {
    const placed = ([x, r]: Point): Point => [at(x), axis + side * r];
    const wall = [
      ...upperEdge(segments, 0).map(placed),
      ...upperEdge(segments, wallMm).map(placed).reverse(),
    ];
    return [{ ...outline(wall), pen: "wall" }];
  });
}

const columns = (isTube: boolean): TableColumn[] =>
  (
    [
      ["no.", 10],
      ["from A", 28],
      ["to", 28],
      [isTube ? "Ø bore, start" : "Ø start", 30],
      [isTube ? "Ø bore, end" : "Ø end", 30],
      ["taper", 30],
      ["per length", 20],
      ["in/ft", 18],
      ["half angle", 20],
      ...(isTube ? [["Ø outside, end", 32] as const] : []),
    ] as const
  ).map(([head, widthMm]) => ({ head, widthMm }));

function row(one: TubeSegment, i: number, wallMm: number, isTube: boolean, unit: LengthUnit): string[] {
  const { fromMm, toMm, fromDiameterMm, toDiameterMm, taper } = one;
  return [
    `${i + 1}`,
    figures(fromMm, unit),
    figures(toMm, unit),
    figures(fromDiameterMm, unit, 3),
    figures(toDiameterMm, unit, 3),
    ...taperCells(taper),
    ...(isTube ? [figures(toDiameterMm + 2 * wallMm, unit, 3)] : []),
  ];
}
