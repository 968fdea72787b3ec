/** A sheet of paper, in its true size: as it lies on the screen and as it comes out of the printer. */
import { html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Paragraph } from "../../../study/report/sheetParagraphs.ts";
import { controls } from "../../shell/look/controls.ts";
import { classroomPage } from "./classroomPage.ts";
import type { PaperContent } from "./paperContent.ts";
import { MARGIN_MM, type PaperSize, pxOf } from "./paperSize.ts";
import { paperStyles } from "./paperStyles.ts";
import { DENSITIES, workshopPage } from "./workshopPage.ts";

/** What is left free at the foot: a printer's lines can fall a little otherwise than a screen's, px. */
const SPARE = 6;
/** Less than this beyond is rounding, px. */
const ROUNDING = 2;
/** A page's height less than a hair: a rounding must not ask for a second page, mm. */
const HAIR_MM = 0.3;
export const CLOSEST = DENSITIES - 1;

export interface Overflow {
  /** Lines that find no room. */
  readonly lines: number;
  readonly longest: { readonly name: Paragraph; readonly lines: number };
}

@customElement("annulus-paper")
export class SheetPaper extends LitElement {
  @property({ attribute: false }) content: PaperContent | null = null;
  @property({ attribute: false }) size: PaperSize | null = null;
  /** How close lines and drawings stand, from 0 to `CLOSEST`. */
  @property({ type: Number, reflect: true }) density = 0;
  /** What that leaves free and the drawing may take. */
  @property({ type: Number }) sparePx = 0;
  /** The paragraph that someone is writing. */
  @property({ attribute: false }) edited: Paragraph | null = null;
  /** Why there is nothing to print; then that alone is on the paper. */
  @property() refusal = "";

  static override styles = [controls, paperStyles];

  override render() {
    const { content, size } = this;
    if (!content || !size) return nothing;
    if (this.refusal) return html`<p class="refusal">${this.refusal}</p>`;
    const page = content.notes.form === "workshop" ? workshopPage : classroomPage;
    const [widthPx, heightPx] = this.#room(size);
    const { density, sparePx } = this;
    return html`<article>${page(content, { widthPx, heightPx, density, sparePx })}</article>`;
  }

  protected override willUpdate(): void {
    if (!this.size) return;
    this.style.setProperty("width", `${this.size.widthMm}mm`);
    this.style.setProperty("height", `${this.size.heightMm - HAIR_MM}mm`);
  }

  protected override updated(): void {
    const article = this.renderRoot.querySelector("article");
    if (!article || !this.size) return;
    article.style.setProperty("min-height", `${this.#room(this.size)[1] - SPARE}px`);
    for (const element of article.querySelectorAll<HTMLElement>("[data-paragraph]"))
      element.classList.toggle("edited", element.dataset.paragraph === this.edited);
  }

  /** Where a paragraph begins and ends, px from the paper's upper edge; null where it is left out. */
  placeOf(name: Paragraph): readonly [top: number, bottom: number] | null {
    const element = this.renderRoot.querySelector<HTMLElement>(`[data-paragraph="${name}"]`);
    return element && [element.offsetTop, element.offsetTop + element.offsetHeight];
  }

  /** Left free above the foot, px. */
  free(): number {
    const article = this.renderRoot.querySelector("article");
    const foot = article?.lastElementChild as HTMLElement | null | undefined;
    const above = foot?.previousElementSibling as HTMLElement | null | undefined;
    if (!article || !foot || !above) return 0;
    const between = foot.offsetTop - above.offsetTop - above.offsetHeight;
    return Math.max(0, Math.floor(between - Number.parseFloat(getComputedStyle(article).rowGap)));
  }

  /** What does not fit on the page; null where all does. */
  overflow(): Overflow | null {
    const article = this.renderRoot.querySelector("article");
    if (!article || !this.size) return null;
    const overPx = article.scrollHeight - (this.#room(this.size)[1] - SPARE);
    if (overPx <= ROUNDING) return null;
    const counted = [...article.querySelectorAll<HTMLElement>("[data-paragraph]")].map((element) => ({
      name: element.dataset.paragraph as Paragraph,
      lines: Math.round(element.offsetHeight / leading(element)),
    }));
    const longest = counted.reduce((most, one) => (one.lines > most.lines ? one : most));
    return { lines: Math.ceil(overPx / leading(article)), longest };
  }

  /** Between the margins, px. */
  #room({ widthMm, heightMm }: PaperSize): [width: number, height: number] {
    return [Math.floor(pxOf(widthMm - 2 * MARGIN_MM)), Math.floor(pxOf(heightMm - HAIR_MM - 2 * MARGIN_MM))];
  }
}

const leading = (element: Element): number => Number.parseFloat(getComputedStyle(element).lineHeight);
