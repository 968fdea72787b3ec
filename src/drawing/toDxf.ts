/**
 * A sheet as DXF for CAD and CAM, in millimetres. Outlines at true size are on a layer of their own, OUTLINE; whatever is
 * enlarged is on ENLARGED, to be switched off.
 */
import {
  DxfWriter,
  LWPolylineFlags,
  point2d,
  point3d,
  TextHorizontalAlignment,
  TextVerticalAlignment,
  Units,
} from "@tarikjabiri/dxf";
import type { Mark, Pen, Sheet } from "./sheet.ts";

const LAYER: Readonly<Record<Pen, string>> = {
  outline: "OUTLINE",
  wall: "OUTLINE",
  thin: "THIN",
  hatch: "HATCH",
  centre: "CENTRE",
  hidden: "HIDDEN",
};
const TEXT = "TEXT";
const ARROWS = "THIN";
const ENLARGED = "ENLARGED";
/** As CAD programs number colours: 7 is black on white, white on black; 8 and 9 grey, 1 red. */
const COLOURS = [
  ["OUTLINE", 7],
  ["THIN", 8],
  ["HATCH", 9],
  ["CENTRE", 1],
  ["HIDDEN", 8],
  [TEXT, 7],
  [ENLARGED, 5],
] as const;

const ALIGNMENT = {
  middle: TextHorizontalAlignment.Center,
  end: TextHorizontalAlignment.Right,
} as const;

/** The text of the file. */
export function toDxf(drawn: Sheet): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  // millimetres for what asks by the older variable
  dxf.setVariable("$MEASUREMENT", { 70: 1 });
  for (const [layer, colour] of COLOURS) dxf.addLayer(layer, colour, "Continuous");
  for (const mark of drawn.marks) put(dxf, mark);
  return dxf.stringify();
}

function put(dxf: DxfWriter, mark: Mark): void {
  const on = (layer: string) => ({ layerName: mark.isEnlarged ? ENLARGED : layer });
  switch (mark.kind) {
    case "line": {
      const { points, isClosed, pen } = mark;
      if (points.length === 2 && !isClosed) {
        const [from, to] = points.map(([x, y]) => point3d(x, y));
        dxf.addLine(from, to, on(LAYER[pen]));
      } else
        dxf.addLWPolyline(
          points.map(([x, y]) => ({ point: point2d(x, y) })),
          { ...on(LAYER[pen]), ...(isClosed && { flags: LWPolylineFlags.Closed }) },
        );
      return;
    }
    case "circle":
      dxf.addCircle(point3d(...mark.centre), mark.radiusMm, on(LAYER[mark.pen]));
      return;
    case "solid":
      dxf.addLWPolyline(
        mark.points.map(([x, y]) => ({ point: point2d(x, y) })),
        { ...on(ARROWS), flags: LWPolylineFlags.Closed },
      );
      return;
    case "text": {
      const { anchor = "start", isUpright, heightMm } = mark;
      const at = point3d(...mark.at);
      dxf.addText(at, heightMm, inDxf(mark.text), {
        ...on(TEXT),
        ...(isUpright && { rotation: 90 }),
        ...(anchor !== "start" && {
          horizontalAlignment: ALIGNMENT[anchor],
          verticalAlignment: TextVerticalAlignment.BaseLine,
          secondAlignmentPoint: at,
        }),
      });
    }
  }
}

const SIGN: Readonly<Record<string, string>> = { Ø: "%%c", "±": "%%p", "°": "%%d", "%": "%%%" };

/** Letters beyond ASCII by their codes, as every version of the format reads them; one line. */
const inDxf = (text: string): string =>
  text
    .replace(/\s+/gu, " ")
    .replace(
      /[^ -$&-~]/g,
      (letter) => SIGN[letter] ?? `\\U+${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}`,
    );
