/** A sheet as the text of an SVG file: a millimetre of the drawing is one of the file, so that it prints at true size. */
import { type Mark, PENS, type Point, type Sheet } from "./sheet.ts";

export interface SvgOptions {
  /** Of lines and letters; `currentColor` where it stands in a page. */
  readonly ink?: string;
  /** Under it all; none where the page's own shows through. */
  readonly paper?: string;
}

/** A hundredth of a millimetre: finer than any printer. */
const place = (lengthMm: number): string => `${Math.round(lengthMm * 100) / 100}`;

const escaped = (text: string): string =>
  // what XML cannot hold at all is left out
  text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

/** The sheet as a file, or to stand in a page. */
export function toSvg(drawn: Sheet, { ink = "#000", paper }: SvgOptions = { paper: "#fff" }): string {
  const { widthMm, heightMm, title, description, marks } = drawn;
  const at = ([x, y]: Point) => `${place(x)},${place(heightMm - y)}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}" role="img" fill="none" stroke="${ink}" stroke-linejoin="round" font-family="'Source Sans 3 Variable', 'Helvetica', 'Arial', sans-serif">`,
    `<title>${escaped(title)}</title>`,
    `<desc>${escaped(description)}</desc>`,
    ...(paper ? [`<rect width="${widthMm}" height="${heightMm}" fill="${paper}" stroke="none"/>`] : []),
    ...marks.map((mark) => element(mark, at, ink)),
    "</svg>\n",
  ].join("\n");
}

function element(mark: Mark, at: (point: Point) => string, ink: string): string {
  switch (mark.kind) {
    case "line":
      return `<path d="M${mark.points.map(at).join("L")}${mark.isClosed ? "Z" : ""}"${penned(mark.pen)}/>`;
    case "circle": {
      const [cx, cy] = at(mark.centre).split(",");
      return `<circle cx="${cx}" cy="${cy}" r="${place(mark.radiusMm)}"${penned(mark.pen)}/>`;
    }
    case "solid":
      return `<path d="M${mark.points.map(at).join("L")}Z" fill="${ink}" stroke="none"/>`;
    case "text": {
      const { text, heightMm, anchor = "start", isBold, isUpright } = mark;
      const [x, y] = at(mark.at).split(",");
      const turned = isUpright ? ` transform="rotate(-90 ${x} ${y})"` : "";
      const weight = isBold ? ' font-weight="700"' : "";
      return `<text x="${x}" y="${y}" font-size="${place(fontSizeMm(heightMm))}" text-anchor="${anchor}" fill="${ink}" stroke="none"${weight}${turned}>${escaped(text)}</text>`;
    }
  }
}

function penned(pen: keyof typeof PENS): string {
  const of: { readonly widthMm: number; readonly dashMm?: readonly number[] } = PENS[pen];
  return ` stroke-width="${of.widthMm}"${of.dashMm ? ` stroke-dasharray="${of.dashMm.join(" ")}"` : ""}`;
}

/** A drawing's letters are as high as its capitals; a font counts more. */
export const fontSizeMm = (heightMm: number): number => heightMm / 0.7;
