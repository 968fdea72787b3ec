/** A sheet as a PDF at true size: a page of its width and height, one millimetre of the drawing being one of the paper. */
import { degrees, PDFDocument, type PDFPage, PrintScaling, rgb } from "@cantoo/pdf-lib";
import { type FetchTypeface, PdfType } from "./pdfType.ts";
import { type Mark, PENS, type Point, type Sheet } from "./sheet.ts";
import { fontSizeMm } from "./toSvg.ts";

const POINTS_PER_MM = 72 / 25.4;
const INK = rgb(0, 0, 0);

interface Page {
  readonly page: PDFPage;
  readonly plain: PdfType;
  readonly bold: PdfType;
}

export interface PdfFile {
  readonly bytes: Uint8Array;
  /** Letters that no typeface here has; the file has a question mark for each. */
  readonly unknownLetters: readonly string[];
}

/** The same sheet gives the same bytes. */
export async function toPdf(drawn: Sheet, fetchTypeface: FetchTypeface): Promise<PdfFile> {
  const file = await PDFDocument.create({ updateMetadata: false });
  file.setTitle(drawn.title);
  file.setSubject(drawn.description);
  file.setProducer("Annulus");
  // a print dialogue that fits to the page would spoil it
  file.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const on: Page = {
    page: file.addPage([drawn.widthMm * POINTS_PER_MM, drawn.heightMm * POINTS_PER_MM]),
    plain: await PdfType.for(linesOf(drawn, false), file, "plain", fetchTypeface),
    bold: await PdfType.for(linesOf(drawn, true), file, "bold", fetchTypeface),
  };
  for (const mark of drawn.marks) put(on, mark);
  return {
    bytes: await file.save(),
    unknownLetters: [...new Set([...on.plain.unknown, ...on.bold.unknown])],
  };
}

function put({ page, plain, bold }: Page, mark: Mark): void {
  switch (mark.kind) {
    case "line": {
      page.drawSvgPath(path(mark.points, mark.isClosed), { x: 0, y: 0, ...stroke(mark.pen) });
      return;
    }
    case "circle": {
      const [x, y] = points(mark.centre);
      const { borderDashArray, ...line } = stroke(mark.pen);
      page.drawCircle({
        x,
        y,
        size: mark.radiusMm * POINTS_PER_MM,
        ...line,
        ...(borderDashArray && { borderDashArray }),
      });
      return;
    }
    case "solid": {
      page.drawSvgPath(path(mark.points, true), { x: 0, y: 0, color: INK, borderWidth: 0 });
      return;
    }
    case "text": {
      const runs = (mark.isBold ? bold : plain).runs(mark.text);
      const size = fontSizeMm(mark.heightMm) * POINTS_PER_MM;
      const widths = runs.map(({ font, text }) => font.widthOfTextAtSize(text, size));
      const share = { start: 0, middle: 0.5, end: 1 }[mark.anchor ?? "start"];
      let along = -share * widths.reduce((sum, width) => sum + width, 0);
      const [x, y] = points(mark.at);
      runs.forEach(({ font, text }, i) => {
        page.drawText(text, {
          x: mark.isUpright ? x : x + along,
          y: mark.isUpright ? y + along : y,
          size,
          font,
          color: INK,
          ...(mark.isUpright && { rotate: degrees(90) }),
        });
        along += widths[i];
      });
    }
  }
}

const linesOf = ({ marks }: Sheet, isBold: boolean): readonly string[] =>
  marks.flatMap((mark) => (mark.kind === "text" && (mark.isBold ?? false) === isBold ? [mark.text] : []));

const points = ([x, y]: Point): Point => [x * POINTS_PER_MM, y * POINTS_PER_MM];

/** The library counts a path's y downwards from where it is put. */
const path = (at: readonly Point[], isClosed = false): string =>
  `M${at
    .map(points)
    .map(([x, y]) => `${x.toFixed(4)},${(-y).toFixed(4)}`)
    .join("L")}${isClosed ? "Z" : ""}`;

function stroke(pen: keyof typeof PENS) {
  const of: { readonly widthMm: number; readonly dashMm?: readonly number[] } = PENS[pen];
  return {
    borderColor: INK,
    borderWidth: of.widthMm * POINTS_PER_MM,
    ...(of.dashMm && { borderDashArray: of.dashMm.map((length) => length * POINTS_PER_MM) }),
  };
}
