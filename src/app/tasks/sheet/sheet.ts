/** The task Sheet: a report to hand over, front and back, or a sheet for a class; on the screen as it will be printed, its words beside it. */

import { html, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import { PARAGRAPHS, type Paragraph } from "../../../study/report/sheetParagraphs.ts";
import { DrawnWidth } from "../../chart/drawnWidth.ts";
import type { WriteEvent, Written } from "../../form/entry.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { fetchTypeface } from "../../shell/look/typeface.ts";
import { PrintedCopy } from "../../shell/printedCopy.ts";
import { jobGaps } from "../../state/bench/jobGaps.ts";
import { type SheetNotes, sheetForm, withWords } from "../../state/notes/sheet.ts";
import { PageElement } from "../../state/page.ts";
import { jobNames, unlessTyped } from "../../state/record/jobNames.ts";
import type { GapPair } from "../../work/comparedGaps.ts";
import { choices } from "./choices.ts";
import { heldBack } from "./held.ts";
import { notices } from "./notices.ts";
import { BETWEEN_PAGES } from "./pageStyles.ts";
import { CLOSEST, type Overflow, pageCount, type Setting, SheetPaper } from "./paper.ts";
import { type PaperContent, paperContent } from "./paperContent.ts";
import { PageRule, paperSize, pxOf } from "./paperSize.ts";
import { type Awaited, type SheetData, sheetData } from "./record.ts";
import { sheetTaskStyles } from "./sheetTaskStyles.ts";
import { wordsForm } from "./wordsForm.ts";

/** Beside its words, as sheetTaskStyles has it, a sheet is shown from top to bottom; this much of the window is not its own, px. */
const BESIDE_FROM = 900;
const AROUND = 80;

@customElement("annulus-sheet")
export class Sheet extends PageElement {
  static override styles = [controls, sheetStyles, sheetTaskStyles];
  readonly #printed = new SheetPaper();
  readonly #copy = new PrintedCopy(this, this.#printed);
  readonly #rule = new PageRule(this);
  @query(".desk") private readonly desk!: HTMLElement;
  @query("annulus-paper") private readonly paper!: SheetPaper;
  /** The paper need not follow every key. */
  protected override readonly paceMs = 120;
  readonly #form: NotesForm<"sheet"> = new NotesForm(this, "sheet", sheetForm);
  @state() private typing: Paragraph | null = null;
  /** The paragraph whose field has the focus. */
  @state() private edited: Paragraph | null = null;
  @state() private overflow: Overflow | null = null;
  @state() private isFullSize = false;
  @state() private windowHeight = innerHeight;
  #data: SheetData | null = null;
  #content: PaperContent | null = null;
  #madeFrom: readonly unknown[] = [];
  #pair: GapPair | null = null;
  /** Of the desk the paper lies on. */
  readonly #deskWidth = new DrawnWidth(this, ".desk");

  protected override willUpdate(): void {
    const { store, model, feel, job } = this.page;
    const { document } = store.state;
    const { unit, retune, workshop, technician } = store.parts.view;
    const { explored, sweep, retuned } = model.parts;
    const { felt, closed } = feel.parts;
    const madeFrom = [
      document,
      unit,
      retune,
      // answers are followed part by part: themselves they are always the same
      ...[explored, sweep, retuned, felt, closed].flatMap((answer) => Object.values(answer)),
      job.parts.row,
      workshop,
      technician,
    ];
    if (this.#content && madeFrom.every((one, i) => one === this.#madeFrom[i])) return;
    this.#madeFrom = madeFrom;
    const gaps = jobGaps(document, unit);
    const asked = { document, view: { workshop, technician }, row: job.parts.row };
    this.#data = sheetData(store.state, gaps, { explored, sweep, retuned }, feel.parts);
    const { told, referenceGapMm } = this.#data.record;
    this.#pair = { gapMm: told.gapMm, referenceGapMm };
    this.#content = paperContent(this.#data.record, this.#data.sweep, this.#notes, {
      names: jobNames(asked),
      otherwise: unlessTyped(asked),
    });
    this.#rule.set(paperSize(this.#notes));
  }

  override render() {
    const content = this.#content!;
    const notes = this.#notes;
    const held = this.#held();
    return html`
      <main>
        <div class="head">
          <h2>Report</h2>
          ${choices(notes, this.page.store.parts.document.notes.trial, (part) => this.#form.write(part))}
          <button type="button" class="print" data-testid="print" ?disabled=${held !== ""} @click=${() => print()}>
            ${icon("print")}Print or save as PDF
          </button>
        </div>
        <div class="status">
          <p role="status" data-testid="sheet-status">${held || `Ready: ${notes.form === "classroom" ? "a page for the class, and one with the answers" : "a front for the player, a back for whoever checks"}, and the numbers are the record's.`}</p>
          ${this.#work(this.#data!.awaited)}
        </div>
        <div class="notices">
          ${notices(this.#data!)}
        </div>
        <div class="work">
          <section class="words" aria-label="Words of the report" @write=${this.#onWrite} @focusin=${this.#onFocus} @focusout=${this.#onBlur}>
            ${wordsForm({
              form: this.#form,
              content,
              typing: this.typing,
              write: (name, written) => this.#writeWords(name, written),
              restore: (name) => this.#form.write(withWords(notes, name, null)),
            })}
          </section>
          <section class="preview" aria-label="The report as it will be printed">
            ${this.#sizes()}
            <div class="desk ${this.isFullSize ? "full" : ""}" tabindex="0" role="group" aria-label="The report">
              <div class="room">
                <annulus-paper data-testid="paper" .content=${content} .size=${paperSize(notes)} .edited=${this.edited}></annulus-paper>
              </div>
            </div>
          </section>
        </div>
      </main>
    `;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener("resize", this.#onResize);
  }

  protected override firstUpdated(): void {
    // type that comes late has other widths
    fetchTypeface().then(
      () => this.#fit(),
      () => {},
    );
  }

  protected override updated(): void {
    this.page.compared.show(this.#pair);
    const { widthMm, heightMm } = paperSize(this.#notes);
    const scale = this.#scale();
    this.paper.style.setProperty("transform", `scale(${scale})`);
    const room = this.paper.parentElement!;
    room.style.setProperty("width", `${pxOf(widthMm) * scale}px`);
    const pages = pageCount(this.#content!);
    const whole = pages * pxOf(heightMm) + (pages - 1) * BETWEEN_PAGES;
    room.style.setProperty("height", `${whole * scale}px`);
    void this.#fit();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.page.compared.show(null);
    removeEventListener("resize", this.#onResize);
  }

  /** As far apart as each page allows; then the printer gets the same, or the reason why it gets nothing. */
  async #fit(): Promise<void> {
    const { paper } = this;
    const content = this.#content!;
    let settings: readonly Setting[] = Array(pageCount(content)).fill({ density: 0, sparePx: 0 });
    let overflows: readonly (Overflow | null)[];
    for (;;) {
      paper.settings = settings;
      await paper.updateComplete;
      // something newer is being drawn, or another task
      if (content !== this.#content || !this.isConnected) return;
      overflows = paper.overflows();
      const isCloser = (i: number) => Boolean(overflows[i]) && settings[i].density < CLOSEST;
      if (!settings.some((_, i) => isCloser(i))) break;
      settings = settings.map((one, i) => (isCloser(i) ? { ...one, density: one.density + 1 } : one));
    }
    const free = paper.free();
    settings = settings.map((one, i) => ({ ...one, sparePx: overflows[i] ? 0 : (free[i] ?? 0) }));
    paper.settings = settings;
    const overflow = overflows.find((one) => one !== null) ?? null;
    if (JSON.stringify(overflow) !== JSON.stringify(this.overflow)) this.overflow = overflow;
    const held = this.#held();
    this.#copy.show({
      content,
      size: paperSize(this.#notes),
      settings,
      refusal: held && `Not printed. ${held}`,
    });
  }

  #held(): string {
    return heldBack(this.#data!, this.#content!, this.overflow);
  }

  #work(awaited: readonly Awaited[]) {
    const running = awaited.find(({ progress }) => progress !== null);
    if (running)
      return html`<progress max="1" .value=${running.progress!} aria-label=${running.what}></progress>`;
    if (!awaited.some(({ isStopped }) => isStopped)) return nothing;
    return html`<button type="button" @click=${this.#goOn}>${icon("play")}Go on</button>`;
  }

  #sizes() {
    return segments(
      "Size on the screen",
      [
        { value: false, text: "Whole page" },
        { value: true, text: "Full size" },
      ],
      this.isFullSize,
      (isFullSize) => {
        this.isFullSize = isFullSize;
      },
    );
  }

  /** So that the whole page is seen, on a phone its whole width; or as large as it is. */
  #scale(): number {
    const { widthMm, heightMm } = paperSize(this.#notes);
    const byWidth = this.#deskWidth.px / pxOf(widthMm) || 1;
    if (this.isFullSize) return Math.max(1, byWidth);
    const byHeight = (this.windowHeight - AROUND) / pxOf(heightMm);
    return this.offsetWidth >= BESIDE_FROM ? Math.min(byWidth, byHeight) : byWidth;
  }

  get #notes(): SheetNotes {
    return this.#form.notes;
  }

  #writeWords(name: Paragraph, { text, done }: Written): void {
    this.typing = done ? null : name;
    this.#form.write(withWords(this.#notes, name, text), { commit: done });
  }

  readonly #onResize = (): void => {
    this.windowHeight = innerHeight;
  };

  /** The paper shows what is being written. */
  readonly #onFocus = ({ target }: FocusEvent): void => {
    this.edited = paragraphOf(target);
    const place = this.edited && this.paper.placeOf(this.edited);
    if (!place) return;
    const scale = this.#scale();
    const { scrollTop, clientHeight } = this.desk;
    const [top, bottom] = place.map((px) => px * scale);
    if (top < scrollTop || bottom > scrollTop + clientHeight)
      this.desk.scrollTo({ top: (top + bottom - clientHeight) / 2 });
  };

  /** Who works here is typed once. */
  readonly #onWrite = ({ target, detail }: WriteEvent): void => {
    const [, name] = /^heads\.(workshop|technician)$/.exec((target as HTMLElement).dataset.field ?? "") ?? [];
    if (name !== undefined && detail.done) this.page.store.setView({ [name]: detail.text.trim() });
  };

  readonly #onBlur = (): void => {
    this.edited = null;
  };

  readonly #goOn = (): void => {
    this.page.model.sweepAgain();
    this.page.feel.again();
  };
}

const paragraphOf = (target: EventTarget | null): Paragraph | null =>
  PARAGRAPHS.find((name) => name === (target as HTMLElement).dataset?.paragraph) ?? null;
