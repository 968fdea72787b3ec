/** A PDF as it is read: its pages' sizes and its text. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

export interface PdfPage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** In the order it was set, without spaces: where words part is the reader's guess. */
  readonly text: string;
  /** The same with what spaces the reader found, a line each. */
  readonly lines: string;
}

const MM_PER_POINT = 25.4 / 72;

export const withoutSpaces = (text: string): string => text.replace(/\s+/g, "");

export async function readPdf(pdf: Uint8Array): Promise<readonly PdfPage[]> {
  const task = getDocument({ data: Uint8Array.from(pdf), verbosity: 0 });
  const file = await task.promise;
  const pages = await Promise.all(
    Array.from({ length: file.numPages }, async (_, i) => {
      const page = await file.getPage(i + 1);
      const { width, height } = page.getViewport({ scale: 1 });
      const { items } = await page.getTextContent();
      const text = items.map((item) => ("str" in item ? item.str : "")).join("");
      const lines = items.map((item) => ("str" in item ? item.str + (item.hasEOL ? "\n" : "") : "")).join("");
      return {
        widthMm: width * MM_PER_POINT,
        heightMm: height * MM_PER_POINT,
        text: withoutSpaces(text),
        lines,
      };
    }),
  );
  await task.destroy();
  return pages;
}
