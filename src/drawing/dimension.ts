/** Dimension lines with their arrows and figures, and lettering, as drawing offices have them. */
import { type Anchor, type Mark, type Pen, type Point, textWidthMm } from "./sheet.ts";

const ARROW_MM = 2.5;
const ARROW_HALF_MM = 0.45;
/** Height of figures and of small print. */
export const LETTERS_MM = 2.5;
export const SMALL_LETTERS_MM = 2;
const GAP_MM = 0.8;

export interface On {
  readonly isEnlarged?: boolean;
}

export const line = (pen: Pen, points: readonly Point[], on: On = {}): Mark => ({
  kind: "line",
  points,
  pen,
  ...on,
});

export const outline = (points: readonly Point[], on: On = {}): Extract<Mark, { kind: "line" }> => ({
  kind: "line",
  points,
  isClosed: true,
  pen: "outline",
  ...on,
});

export const letters = (
  text: string,
  at: Point,
  of: {
    readonly heightMm?: number;
    readonly anchor?: Anchor;
    readonly isBold?: boolean;
    readonly isUpright?: boolean;
  } & On = {},
): Mark => ({ kind: "text", text, at, heightMm: LETTERS_MM, ...of });

/** Its tip at a point, looking along a unit vector. */
const arrow = ([x, y]: Point, [dx, dy]: Point, on: On): Mark => ({
  kind: "solid",
  points: [
    [x, y],
    [x - ARROW_MM * dx - ARROW_HALF_MM * dy, y - ARROW_MM * dy + ARROW_HALF_MM * dx],
    [x - ARROW_MM * dx + ARROW_HALF_MM * dy, y - ARROW_MM * dy - ARROW_HALF_MM * dx],
  ],
  ...on,
});

/**
 * A length along x between two places, its line at a height `row`, extension lines from where the part is. Where it is too
 * short for its arrows they stand outside, and the figures beside the right one where they do not fit between.
 */
export function lengthAlong(
  [from, to]: readonly [Point, Point],
  row: number,
  text: string,
  on: On = {},
): Mark[] {
  const [left, right] = from[0] <= to[0] ? [from, to] : [to, from];
  const across = right[0] - left[0];
  const isInside = across >= 3 * ARROW_MM;
  const outside = isInside ? 0 : ARROW_MM + 2;
  const width = textWidthMm(text, LETTERS_MM);
  const isTextInside = isInside && across >= width + 2 * ARROW_MM;
  const extension = ([x, y]: Point): Mark =>
    line(
      "thin",
      [
        [x, y + Math.sign(row - y) * GAP_MM],
        [x, row + Math.sign(row - y) * 1.2],
      ],
      on,
    );
  const heads: readonly [Point, Point] = isInside
    ? [
        [-1, 0],
        [1, 0],
      ]
    : [
        [1, 0],
        [-1, 0],
      ];
  return [
    extension(left),
    extension(right),
    line(
      "thin",
      [
        [left[0] - outside, row],
        [right[0] + outside, row],
      ],
      on,
    ),
    arrow([left[0], row], heads[0], on),
    arrow([right[0], row], heads[1], on),
    isTextInside
      ? letters(text, [(left[0] + right[0]) / 2, row + GAP_MM], { anchor: "middle", ...on })
      : letters(text, [right[0] + Math.max(outside, 1.5) + GAP_MM, row - 0.36 * LETTERS_MM], on),
  ];
}

/** A diameter across a part that lies along x, its line at a place `column`, the figures beside it. */
export function diameterAcross(
  axis: number,
  [lowX, highX]: readonly [number, number],
  radius: number,
  column: number,
  text: string,
  on: On = {},
): Mark[] {
  const from = column > highX ? highX : lowX;
  const away = Math.sign(column - from);
  const edge = (side: 1 | -1): Mark[] =>
    column === from
      ? []
      : [
          line(
            "thin",
            [
              [from + away * GAP_MM, axis + side * radius],
              [column + away * 1.2, axis + side * radius],
            ],
            on,
          ),
        ];
  const isInside = 2 * radius >= 3 * ARROW_MM;
  const outside = isInside ? 0 : ARROW_MM + 2;
  const sense = isInside ? 1 : -1;
  return [
    ...edge(1),
    ...edge(-1),
    line(
      "thin",
      [
        [column, axis - radius - outside],
        [column, axis + radius + outside],
      ],
      on,
    ),
    arrow([column, axis + radius], [0, sense], on),
    arrow([column, axis - radius], [0, -sense], on),
    letters(text, [column + away * (GAP_MM + 0.4), axis - 0.36 * LETTERS_MM], {
      anchor: away < 0 ? "end" : "start",
      ...on,
    }),
  ];
}

/** A triangle on a line: the face that lengths are counted from. */
export function datum(name: string, [x, y]: Point, on: On = {}): Mark[] {
  const size = 4.6;
  return [
    {
      kind: "solid",
      points: [
        [x, y],
        [x - 1.3, y - 2.2],
        [x + 1.3, y - 2.2],
      ],
      ...on,
    },
    line(
      "thin",
      [
        [x, y - 2.2],
        [x, y - 4],
      ],
      on,
    ),
    {
      kind: "line",
      isClosed: true,
      pen: "thin",
      points: [
        [x - size / 2, y - 4],
        [x + size / 2, y - 4],
        [x + size / 2, y - 4 - size],
        [x - size / 2, y - 4 - size],
      ],
      ...on,
    },
    letters(name, [x, y - 4 - size + 1.05], { anchor: "middle", isBold: true, ...on }),
  ];
}

export interface TableColumn {
  readonly head: string;
  readonly widthMm: number;
}

export const ROW_MM = 5;

/** Rows under their heads; every figure against the right edge of its column. */
export function tableMarks(
  [left, top]: Point,
  columns: readonly TableColumn[],
  rows: readonly (readonly string[])[],
): Mark[] {
  const edges = columns.map((_, i) =>
    columns.slice(0, i + 1).reduce((sum, { widthMm }) => sum + widthMm, left),
  );
  const right = edges[edges.length - 1];
  const written = (cells: readonly string[], y: number, isBold: boolean): Mark[] =>
    cells.map((text, i) =>
      letters(text, [edges[i] - 1.5, y], { anchor: "end", isBold, heightMm: SMALL_LETTERS_MM }),
    );
  const at = (row: number) => top - ROW_MM * row;
  return [
    line("outline", [
      [left, top],
      [right, top],
    ]),
    ...written(
      columns.map(({ head }) => head),
      at(1) + 1.5,
      true,
    ),
    line("outline", [
      [left, at(1)],
      [right, at(1)],
    ]),
    ...rows.flatMap((cells, i) => [
      ...written(cells, at(i + 2) + 1.5, false),
      line("hatch", [
        [left, at(i + 2)],
        [right, at(i + 2)],
      ]),
    ]),
  ];
}
