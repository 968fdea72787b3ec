/** The go/no-go ring: in section through its window with the gap marks, and at true size from the side and from its end. */
import type { RingGauge } from "../bench/gauges/ringGauge.ts";
import type { LengthUnit } from "../units/length.ts";
import { diameterFigures, figures, taperCells } from "../words/bench/gauges.ts";
import { datum, diameterAcross, lengthAlong, letters, line, outline, SMALL_LETTERS_MM } from "./dimension.ts";
import { enlargement, scaleWords } from "./enlargement.ts";
import { FOOT_MM } from "./frame.ts";
import { hatchLines } from "./hatch.ts";
import { FRAME_MM, type Mark, type Point, sheetSize } from "./sheet.ts";

const LEFT_MM = 62;
/** Between figures of gap marks, mm on the sheet. */
const READABLE_MM = 3;

/** The marks, and the sheet they need. */
export function ringDrawing(
  ring: RingGauge,
  unit: LengthUnit,
): { readonly marks: Mark[]; readonly sizeMm: Point } {
  const { lengthMm, outsideMm, faceBoreMm, farBoreMm, taper, limitsMm, marksMm } = ring;
  const sizeMm = sheetSize([277, 190]);
  const times = enlargement([lengthMm, outsideMm], [125, 82]);
  const axis = FRAME_MM + FOOT_MM + 18 + (times * outsideMm) / 2;
  const right = LEFT_MM + times * lengthMm;
  const edge = axis + (times * outsideMm) / 2;
  const foot = axis - (times * outsideMm) / 2;
  const at = (gapMm: number) => right - times * gapMm;
  const on = { isEnlarged: true };
  const [ratio, perInch, perFoot, half] = taperCells(taper);
  const stride = Math.ceil(READABLE_MM / (times * (marksMm[1] ?? 1)));
  const trueX = sizeMm[0] - FRAME_MM - lengthMm - outsideMm - 16;
  const trueAxis = sizeMm[1] - FRAME_MM - 8 - outsideMm / 2;
  return {
    sizeMm,
    marks: [
      ...sectionAt(ring, [LEFT_MM, axis], times),
      ...marksMm.flatMap((gapMm, i): Mark[] => [
        line(
          "thin",
          [
            [at(gapMm), edge],
            [at(gapMm), edge - 3],
          ],
          on,
        ),
        ...(i > 0 && i % stride === 0
          ? [
              letters(figure(gapMm, unit), [at(gapMm) + 0.7, edge - 4], {
                heightMm: SMALL_LETTERS_MM,
                anchor: "end",
                isUpright: true,
                ...on,
              }),
            ]
          : []),
      ]),
      ...(["NO-GO", "GO"] as const).flatMap((name, i) => {
        const gapMm = limitsMm[i];
        return [
          line(
            "outline",
            [
              [at(gapMm), edge],
              [at(gapMm), edge - 3],
            ],
            on,
          ),
          ...lengthAlong(
            [
              [at(gapMm), edge],
              [right, edge],
            ],
            edge + 8 + 6 * i,
            `${figures(gapMm, unit)}  ${name}`,
            on,
          ),
        ];
      }),
      ...lengthAlong(
        [
          [LEFT_MM, foot],
          [right, foot],
        ],
        foot - 7,
        figures(lengthMm, unit),
        on,
      ),
      ...diameterAcross(
        axis,
        [LEFT_MM, right],
        (times * faceBoreMm) / 2,
        LEFT_MM - 8,
        diameterFigures(faceBoreMm, unit, 3),
        on,
      ),
      ...diameterAcross(
        axis,
        [LEFT_MM, right],
        (times * farBoreMm) / 2,
        right + 8,
        diameterFigures(farBoreMm, unit, 3),
        on,
      ),
      letters(
        `taper ${ratio}, ${perInch} per length, ${perFoot} in/ft, ${half} to each side`,
        [LEFT_MM + 6, foot - 13],
        on,
      ),
      ...datum("A", [LEFT_MM, foot - 8.2], on),
      letters("B", [right + 2, foot - 4], { isBold: true, ...on }),
      letters(scaleWords(times), [LEFT_MM, edge + 3], on),
      ...sectionAt(ring, [trueX, trueAxis], 1),
      ...endView(ring, [trueX + lengthMm + 8 + outsideMm / 2, trueAxis]),
      letters(scaleWords(1), [trueX, trueAxis - outsideMm / 2 - 6]),
      letters(`${diameterFigures(outsideMm, unit)} outside`, [trueX, trueAxis - outsideMm / 2 - 11]),
      letters(`window ${figures(ring.windowWidthMm, unit)} wide,`, [trueX, trueAxis - outsideMm / 2 - 16]),
      letters(`${figures(ring.windowLengthMm, unit)} long from B`, [trueX, trueAxis - outsideMm / 2 - 21]),
    ],
  };
}

const figure = (gapMm: number, unit: LengthUnit): string =>
  unit === "mm" ? gapMm.toFixed(1) : (gapMm / 25.4).toFixed(2);

/** Cut along its axis through the window, which is open at the top right. */
function sectionAt(ring: RingGauge, [x, axis]: Point, times: number): Mark[] {
  const { lengthMm, outsideMm, faceBoreMm, farBoreMm, taper, windowLengthMm } = ring;
  const on = { isEnlarged: times !== 1 };
  const windowAt = lengthMm - windowLengthMm;
  const boreAt = (at: number) => (faceBoreMm - taper * at) / 2;
  const placed = ([at, radius]: Point): Point => [x + times * at, axis + times * radius];
  const outside = outsideMm / 2;
  const top = [
    [0, boreAt(0)],
    [windowAt, boreAt(windowAt)],
    [windowAt, outside],
    [0, outside],
  ] as const;
  const bottom = [
    [0, -boreAt(0)],
    [lengthMm, -farBoreMm / 2],
    [lengthMm, -outside],
    [0, -outside],
  ] as const;
  // behind the cut: the window's far edge, and the bore's ends
  const behind: readonly (readonly [Point, Point])[] = [
    [
      [windowAt, outside],
      [lengthMm, outside],
    ],
    [
      [windowAt, boreAt(windowAt)],
      [lengthMm, farBoreMm / 2],
    ],
    [
      [lengthMm, outside],
      [lengthMm, -farBoreMm / 2],
    ],
    [
      [0, boreAt(0)],
      [0, -boreAt(0)],
    ],
  ];
  return [
    ...[top, bottom].flatMap((part) => {
      const points = part.map(placed);
      return [outline(points, on), ...hatchLines(points, 2.2).map((pair) => line("hatch", pair, on))];
    }),
    ...behind.map((pair) => line("thin", pair.map(placed), on)),
    line(
      "centre",
      [
        [x - 4, axis],
        [x + times * lengthMm + 4, axis],
      ],
      on,
    ),
  ];
}

/** From its far face, the window at the top. */
function endView({ outsideMm, farBoreMm, windowWidthMm }: RingGauge, centre: Point): Mark[] {
  const [x, y] = centre;
  const half = windowWidthMm / 2;
  const wall = (side: 1 | -1) =>
    line("outline", [
      [x + side * half, y + Math.sqrt((farBoreMm / 2) ** 2 - half ** 2)],
      [x + side * half, y + Math.sqrt((outsideMm / 2) ** 2 - half ** 2)],
    ]);
  const reach = outsideMm / 2 + 3;
  return [
    { kind: "circle", centre, radiusMm: outsideMm / 2, pen: "outline" },
    { kind: "circle", centre, radiusMm: farBoreMm / 2, pen: "outline" },
    wall(1),
    wall(-1),
    line("centre", [
      [x - reach, y],
      [x + reach, y],
    ]),
    line("centre", [
      [x, y - reach],
      [x, y + reach],
    ]),
  ];
}
