/**
 * A drawing for the workshop: marks on a sheet, in millimetres from its lower left corner, y upwards. What is drawn at true
 * size can be laid on the part; what is enlarged says so. Files of it are made by toSvg, toPdf and toDxf.
 */

export type Point = readonly [xMm: number, yMm: number];

/** Line widths as drawing offices have them: a part's outline is twice as wide as what is written about it. */
export const PENS = {
  outline: { widthMm: 0.5 },
  /** An outline too fine for its own width: a tube's wall. */
  wall: { widthMm: 0.18 },
  thin: { widthMm: 0.25 },
  hatch: { widthMm: 0.13 },
  centre: { widthMm: 0.25, dashMm: [6, 1.5, 1, 1.5] },
  hidden: { widthMm: 0.25, dashMm: [2, 1] },
} as const satisfies Readonly<Record<string, { widthMm: number; dashMm?: readonly number[] }>>;
export type Pen = keyof typeof PENS;

export type Anchor = "start" | "middle" | "end";

export type Mark =
  | {
      readonly kind: "line";
      readonly points: readonly Point[];
      readonly isClosed?: boolean;
      readonly pen: Pen;
      readonly isEnlarged?: boolean;
    }
  | {
      readonly kind: "circle";
      readonly centre: Point;
      readonly radiusMm: number;
      readonly pen: Pen;
      readonly isEnlarged?: boolean;
    }
  | {
      /** Filled: an arrowhead. */
      readonly kind: "solid";
      readonly points: readonly [Point, Point, Point];
      readonly isEnlarged?: boolean;
    }
  | {
      readonly kind: "text";
      readonly text: string;
      /** On the line it stands on. */
      readonly at: Point;
      readonly heightMm: number;
      readonly anchor?: Anchor;
      readonly isBold?: boolean;
      /** Upwards, to be read from the right. */
      readonly isUpright?: boolean;
      readonly isEnlarged?: boolean;
    };

export interface Sheet {
  /** For files: `depth-plug`. */
  readonly name: string;
  readonly title: string;
  /** What is drawn, with its numbers, for who cannot see it. */
  readonly description: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

/** About how wide a text is; no file can wait to measure it. Errs on the wide side. */
export const textWidthMm = (text: string, heightMm: number): number => 0.74 * heightMm * text.length;

/** ISO 216, lying; and beyond the longest a strip of the length that is needed. */
const SIZES_MM = [
  [297, 210],
  [420, 297],
  [594, 420],
  [841, 594],
  [1189, 841],
] as const;
/** From the sheet's edge to its frame. */
export const FRAME_MM = 10;

/** The smallest sheet with this much room inside its frame. */
export function sheetSize(roomMm: readonly [width: number, height: number]): Point {
  const needed = roomMm.map((length) => length + 2 * FRAME_MM);
  return (
    SIZES_MM.find(([width, height]) => width >= needed[0] && height >= needed[1]) ?? [
      Math.max(Math.ceil(needed[0]), SIZES_MM[0][0]),
      Math.max(Math.ceil(needed[1]), SIZES_MM[0][1]),
    ]
  );
}
