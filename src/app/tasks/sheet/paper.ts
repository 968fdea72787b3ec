/** The pages of a printed sheet, each in its true size: as they lie on the screen and as they come out of the printer. */
import { html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Paragraph } from "../../../study/report/sheetParagraphs.ts";
import { controls } from "../../shell/look/controls.ts";
import { backPage } from "./backPage.ts";
import { classAnswersPage } from "./classAnswersPage.ts";
import { classroomPage } from "./classroomPage.ts";
import { frontPage } from "./frontPage.ts";
import { DENSITIES } from "./layout.ts";
import { pageStyles } from "./pageStyles.ts";
import type { PaperContent } from "./paperContent.ts";
import { MARGIN_MM, type PaperSize, pxOf } from "./paperSize.ts";
import { paperStyles } from "./paperStyles.ts";

/** What is left free at the foot: a printer's lines can fall a little otherwise than a screen's, px. */
const SPARE = 6;
/** Less than this beyond is rounding, px. */
const ROUNDING = 2;
/** A page's height less a hair: a rounding must not ask for another page, mm. */
const HAIR_MM = 0.3;
export const CLOSEST = DENSITIES - 1;

export interface Overflow {
  /** Lines that find no room. */
  readonly lines: number;
  readonly longest: { readonly name: Paragraph; readonly lines: number };
}

/** How a page is set. */
export interface Setting {
  /** How close lines and drawings stand, from 0 to `CLOSEST`. */
  readonly density: number;
  /** What that leaves free and a drawing may take, px. */
  readonly sparePx: number;
}

const PAGES = {
  workshop: [
    { side: "front", draw: frontPage },
    { side: "back", draw: backPage },
  ],
  classroom: [
    { side: "whole", draw: classroomPage },
    { side: "answers", draw: classAnswersPage },
  ],
} as const;
/** How many pages a form has. */
export const pageCount = ({ notes: { form } }: PaperContent): number => PAGES[form].length;

@customElement("annulus-paper")
export class SheetPaper extends LitElement {
  @property({ attribute: false }) content: PaperContent | null = null;
  @property({ attribute: false }) size: PaperSize | null = null;
  /** A page each. */
  @property({ attribute: false }) settings: readonly Setting[] = [];
  /** The paragraph that someone is writing. */
  @property({ attribute: false }) edited: Paragraph | null = null;
  /** Why there is nothing to print; then that alone is on the paper. */
  @property() refusal = "";

  static override styles = [controls, pageStyles, paperStyles];

  override render() {
    const { content, size } = this;
    if (!content || !size) return nothing;
    if (this.refusal) return html`<div class="page"><p class="refusal">${this.refusal}</p></div>`;
    const [widthPx, heightPx] = this.#room(size);
    return PAGES[content.notes.form].map(({ side, draw }, i) => {
      const { density = 0, sparePx = 0 } = this.settings[i] ?? {};
      return html`<div class="page ${side}" data-density=${density}>
        <article>${draw(content, { widthPx, heightPx, density, sparePx })}</article>
      </div>`;
    });
  }

  protected override updated(): void {
    if (!this.size) return;
    for (const page of this.renderRoot.querySelectorAll<HTMLElement>(".page")) {
      page.style.setProperty("width", `${this.size.widthMm}mm`);
      page.style.setProperty("height", `${this.size.heightMm - HAIR_MM}mm`);
    }
    for (const article of this.#articles()) {
      article.style.setProperty("min-height", `${this.#room(this.size)[1] - SPARE}px`);
      for (const element of article.querySelectorAll<HTMLElement>("[data-paragraph]"))
        element.classList.toggle("edited", element.dataset.paragraph === this.edited);
    }
  }

  /** Where a paragraph begins and ends, px from the paper's upper edge; null where it is left out. */
  placeOf(name: Paragraph): readonly [top: number, bottom: number] | null {
    const element = this.renderRoot.querySelector<HTMLElement>(`[data-paragraph="${name}"]`);
    return element && [element.offsetTop, element.offsetTop + element.offsetHeight];
  }

  /** Left free above each page's foot, px. */
  free(): readonly number[] {
    return this.#articles().map((article) => {
      const foot = article.lastElementChild as HTMLElement | null;
      const above = foot?.previousElementSibling as HTMLElement | null | undefined;
      if (!foot || !above) return 0;
      const between = foot.offsetTop - above.offsetTop - above.offsetHeight;
      return Math.max(0, Math.floor(between - Number.parseFloat(getComputedStyle(article).rowGap)));
    });
  }

  /** What does not fit on each page; null where all does. */
  overflows(): readonly (Overflow | null)[] {
    const { size } = this;
    if (!size) return [];
    return this.#articles().map((article) => {
      const overPx = article.scrollHeight - (this.#room(size)[1] - SPARE);
      if (overPx <= ROUNDING) return null;
      const counted = [...article.querySelectorAll<HTMLElement>("[data-paragraph]")].map((element) => ({
        name: element.dataset.paragraph as Paragraph,
        lines: Math.round(element.offsetHeight / leading(element)),
      }));
      const longest = counted.reduce((most, one) => (one.lines > most.lines ? one : most), {
        name: "first" as Paragraph,
        lines: 0,
      });
      return { lines: Math.ceil(overPx / leading(article)), longest };
    });
  }

  #articles(): HTMLElement[] {
    return [...this.renderRoot.querySelectorAll("article")];
  }

  /** Between the margins, px. */
  #room({ widthMm, heightMm }: PaperSize): [width: number, height: number] {
    return [Math.floor(pxOf(widthMm - 2 * MARGIN_MM)), Math.floor(pxOf(heightMm - HAIR_MM - 2 * MARGIN_MM))];
  }
}

const leading = (element: Element): number => Number.parseFloat(getComputedStyle(element).lineHeight);
