/** The stepped depth plug: at true size, enlarged with its lengths, and its shoulders as a table. */
import type { PlugGauge } from "../bench/gauges/plugGauge.ts";
import type { LengthUnit } from "../units/length.ts";
import { diameterFigures, figures } from "../words/bench/gauges.ts";
import { datum, diameterAcross, lengthAlong, letters, line, outline, tableMarks } from "./dimension.ts";
import { enlargement, scaleWords } from "./enlargement.ts";
import { FOOT_MM } from "./frame.ts";
import { FRAME_MM, type Mark, type Point, sheetSize } from "./sheet.ts";

const LEFT_MM = 45;
const ROW_MM = 5.5;

/** The marks, and the sheet they need. */
export function plugDrawing(
  plug: PlugGauge,
  unit: LengthUnit,
): { readonly marks: Mark[]; readonly sizeMm: Point } {
  const { noseDiameterMm, shoulders, overallMm } = plug;
  const sizeMm = sheetSize([Math.max(277, overallMm + 110), 190]);
  const top = sizeMm[1] - FRAME_MM;
  const times = enlargement([overallMm, noseDiameterMm], [225, 46]);
  const axis = FRAME_MM + FOOT_MM + 20 + (times * noseDiameterMm) / 2;
  const at = (lengthMm: number) => LEFT_MM + times * lengthMm;
  const on = { isEnlarged: true };
  const noseTop = axis + (times * noseDiameterMm) / 2;
  const stem = shoulders[shoulders.length - 1];
  return {
    sizeMm,
    marks: [
      ...plugAt(plug, [LEFT_MM, top - 18], 1),
      letters(scaleWords(1), [LEFT_MM, top - 18 - noseDiameterMm / 2 - 6]),
      ...plugAt(plug, [LEFT_MM, axis], times),
      letters(scaleWords(times), [at(overallMm), axis - (times * noseDiameterMm) / 2 - 3], {
        anchor: "end",
        ...on,
      }),
      ...shoulders.flatMap(({ lengthMm }, i) => {
        const diameterMm = i === 0 ? noseDiameterMm : shoulders[i - 1].diameterMm;
        return lengthAlong(
          [
            [LEFT_MM, noseTop],
            [at(lengthMm), axis + (times * diameterMm) / 2],
          ],
          noseTop + 5 + i * ROW_MM,
          `${letterOf(i)}  ${figures(lengthMm, unit)}`,
          on,
        );
      }),
      ...lengthAlong(
        [
          [LEFT_MM, axis - (times * noseDiameterMm) / 2],
          [at(overallMm), axis - (times * stem.diameterMm) / 2],
        ],
        axis - (times * noseDiameterMm) / 2 - 9,
        `${figures(overallMm, unit)} overall`,
        on,
      ),
      ...diameterAcross(
        axis,
        [LEFT_MM, at(overallMm)],
        (times * noseDiameterMm) / 2,
        LEFT_MM - 8,
        diameterFigures(noseDiameterMm, unit),
        on,
      ),
      ...datum("A", [LEFT_MM, axis - (times * noseDiameterMm) / 2 - 10.2], on),
      ...tableMarks(
        [sizeMm[0] - FRAME_MM - 96, top - 4],
        [
          { head: "shoulder", widthMm: 18 },
          { head: "from A", widthMm: 36 },
          { head: "diameter beyond", widthMm: 38 },
        ],
        shoulders.map(({ lengthMm, diameterMm }, i) => [
          letterOf(i),
          figures(lengthMm, unit),
          diameterFigures(diameterMm, unit),
        ]),
      ),
    ],
  };
}

const letterOf = (i: number): string => "PQRST"[i];

/** Its outline, seen from the side, the nose at the left. */
function plugAt(
  { noseDiameterMm, shoulders, overallMm }: PlugGauge,
  [x, axis]: Point,
  times: number,
): Mark[] {
  const on = { isEnlarged: times !== 1 };
  const upper: Point[] = [[0, noseDiameterMm / 2]];
  shoulders.forEach(({ lengthMm, diameterMm }) => {
    upper.push([lengthMm, upper[upper.length - 1][1]], [lengthMm, diameterMm / 2]);
  });
  upper.push([overallMm, upper[upper.length - 1][1]]);
  const lower = upper.map(([at, radius]): Point => [at, -radius]).reverse();
  const placed = ([at, radius]: Point): Point => [x + times * at, axis + times * radius];
  return [
    outline([...upper, ...lower].map(placed), on),
    ...upper.flatMap(([at, radius], i) =>
      i > 0 && i < upper.length - 1 && upper[i - 1][1] === radius
        ? [line("thin", [placed([at, radius]), placed([at, -radius])], on)]
        : [],
    ),
    line(
      "centre",
      [
        [x - 4, axis],
        [x + times * overallMm + 4, axis],
      ],
      on,
    ),
  ];
}
