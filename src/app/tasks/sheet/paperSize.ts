/** The paper a sheet is printed on, and the rule that tells the printer. */
import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Paper, SheetNotes } from "../../state/notes/sheet.ts";

export interface PaperSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const MARGIN_MM = 12;
const UPRIGHT: Readonly<Record<Paper, PaperSize>> = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
};

/** CSS px in a millimetre. */
const PX_PER_MM = 96 / 25.4;
export const pxOf = (mm: number): number => mm * PX_PER_MM;

export function paperSize({ form, paper, isLandscape }: SheetNotes): PaperSize {
  const { widthMm, heightMm } = UPRIGHT[paper];
  return form === "classroom" && isLandscape
    ? { widthMm: heightMm, heightMm: widthMm }
    : { widthMm, heightMm };
}

/** As long as its host is on the page, what is printed has this size and no margins but the paper's own. */
export class PageRule implements ReactiveController {
  readonly #rule = new CSSStyleSheet();

  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }

  set({ widthMm, heightMm }: PaperSize): void {
    this.#rule.replaceSync(`@page { size: ${widthMm}mm ${heightMm}mm; margin: 0 }`);
  }

  hostConnected(): void {
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, this.#rule];
  }

  hostDisconnected(): void {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== this.#rule);
  }
}
