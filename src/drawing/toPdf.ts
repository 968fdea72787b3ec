/** A sheet as a PDF at true size: a page of its width and height, one millimetre of the drawing being one of the paper. */
import {
  degrees,
  PDFDocument,
  type PDFFont,
  type PDFPage,
  PrintScaling,
  rgb,
  StandardFonts,
} from "@cantoo/pdf-lib";
import { type Mark, PENS, type Point, type Sheet } from "./sheet.ts";
import { fontSizeMm } from "./toSvg.ts";

const POINTS_PER_MM = 72 / 25.4;
const INK = rgb(0, 0, 0);

interface Page {
  readonly page: PDFPage;
  readonly plain: PDFFont;
  readonly bold: PDFFont;
}

/** The bytes of the file; the same sheet gives the same bytes. */
export async function toPdf(drawn: Sheet): Promise<Uint8Array> {
  const file = await PDFDocument.create({ updateMetadata: false });
  file.setTitle(drawn.title);
  file.setSubject(drawn.description);
  file.setProducer("Annulus");
  // a print dialogue that fits to the page would spoil it
  file.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const on: Page = {
    page: file.addPage([drawn.widthMm * POINTS_PER_MM, drawn.heightMm * POINTS_PER_MM]),
    plain: await file.embedFont(StandardFonts.Helvetica),
    bold: await file.embedFont(StandardFonts.HelveticaBold),
  };
  for (const mark of drawn.marks) put(on, mark);
  return file.save();
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
      const font = mark.isBold ? bold : plain;
      const text = inFont(mark.text, font);
      const size = fontSizeMm(mark.heightMm) * POINTS_PER_MM;
      const share = { start: 0, middle: 0.5, end: 1 }[mark.anchor ?? "start"];
      const backBy = share * font.widthOfTextAtSize(text, size);
      const [x, y] = points(mark.at);
      page.drawText(text, {
        x: mark.isUpright ? x : x - backBy,
        y: mark.isUpright ? y - backBy : y,
        size,
        font,
        color: INK,
        ...(mark.isUpright && { rotate: degrees(90) }),
      });
    }
  }
}

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

/** The fonts that every reader has know Western letters; others lose their marks, or become a question mark. */
function inFont(text: string, font: PDFFont): string {
  const known = new Set(font.getCharacterSet());
  const plain = text.replaceAll("\u2212", "-");
  return Array.from(plain, (letter) => {
    if (known.has(letter.codePointAt(0)!)) return letter;
    const bare = letter.normalize("NFKD").replace(/\p{M}/gu, "");
    return bare && Array.from(bare).every((part) => known.has(part.codePointAt(0)!)) ? bare : "?";
  }).join("");
}
