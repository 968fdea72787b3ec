/**
 * The chart of the page: a figure with its caption, its menu, its numbers and words about it. Its width follows the sheet, it
 * is drawn once a frame and only when what it shows has changed, and it looks old when it is.
 *
 * Switches that belong to it go into its slot `switches`. What has a look or a handle of its own extends it.
 */

import { consume } from "@lit/context";
import { type CSSResultGroup, html, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Drawing, Point } from "../../charts/kit/drawing.ts";
import { endRedraw } from "../../charts/kit/redraw.ts";
import { instrumentOf } from "../../setup/instrumentOf.ts";
import { controls } from "../shell/look/controls.ts";
import { type Page, PageElement } from "../state/page.ts";
import type { Answer } from "../work/work.ts";
import { chartFileName, saveCsv, savePng, saveSvg } from "./chartFile.ts";
import type { ChartAction } from "./chartMenu.ts";
import "./chartMenu.ts";
import { chartStyles } from "./chartStyles.ts";
import { Cursor, cursorContext } from "./cursor.ts";
import { DrawnWidth } from "./drawnWidth.ts";
import { InSight } from "./inSight.ts";
import type { PageFigure, ShownChart } from "./pageFigure.ts";
import { sameData } from "./sameData.ts";
import { tableStyles, tableView } from "./tableView.ts";
import { zoom } from "./zoom.ts";

/** How a chart is drawn on a projector. */
export interface Enlarged {
  /** Screen px for one of the drawing. */
  readonly zoom: number;
  /** Room for it, screen px. */
  readonly heightPx: number;
}

@customElement("annulus-chart")
export class ChartElement extends PageElement implements ShownChart {
  @property({ attribute: false }) figure!: PageFigure<unknown>;
  /** What the figure is drawn from, unless it reads that itself; null while there is nothing to draw. */
  @property({ attribute: false }) data: unknown = null;
  /** What the data are taken from, where that can be late. */
  @property({ attribute: false }) answer: Answer<unknown> | null = null;
  /** For a projector: type and all so much larger, and no higher than that; undefined: as the page is. */
  @property({ attribute: false }) enlarged: Enlarged | undefined;
  declare readonly page: Page;
  /** The charts of a task that have a read-out line share it. */
  @consume({ context: cursorContext })
  readonly cursor: Cursor = new Cursor();
  @query(".drawing") readonly sheet!: HTMLElement;
  @state() private showsTable = false;
  @state() private showsAbout = false;
  @state() private spoken = "";
  drawing: Drawing | null = null;
  /** As last read. */
  #data: unknown = null;
  #followed: unknown;
  /** What the drawing was made from. */
  #drawnFrom: unknown = null;
  #drawnBy: PageFigure<unknown>["draw"] | null = null;
  #inputs: readonly unknown[] = [];
  #height = 0;
  #lastPlace: Point = [Number.NaN, Number.NaN];
  readonly #inSight = new InSight(this);
  readonly #width = new DrawnWidth(this, ".drawing");

  static override styles: CSSResultGroup = [controls, tableStyles, chartStyles];

  override render() {
    const { figure, page } = this;
    const { name, label, about, keysHint = "" } = figure;
    const { unit } = page.store.parts.view;
    const instrument = instrumentOf(page.store.parts.document.setup);
    const answer = figure.answer?.(page) ?? this.answer;
    const isLate = answer?.late ?? false;
    // what was refused or stopped is out of date too, but nothing comes of waiting
    const isBusy = isLate && !answer?.refused && !answer?.stopped;
    const data = this.#read();
    const table =
      this.showsTable && data !== null ? (figure.readable ?? figure.table)(data, unit, instrument) : null;
    return html`
      <figure class=${isLate ? "late" : ""} aria-busy=${isBusy ? "true" : "false"}>
        <div class="place">
          <div
            class="drawing"
            role="group"
            aria-label=${label}
            aria-description=${keysHint}
            tabindex=${keysHint ? "0" : nothing}
            data-testid=${name}
            @pointermove=${this.#onMove}
            @pointerdown=${(event: PointerEvent) => this.figure.press?.(event, this)}
            @pointerleave=${() => this.cursor.leave()}
            @keydown=${(event: KeyboardEvent) => this.figure.key?.(event, this)}
            @blur=${() => this.cursor.leave()}
          ></div>
          ${this.handle()}
        </div>
        <p class="unseen" aria-live="polite">${this.spoken}</p>
        <div class="foot ${this.enlarged ? "unshown" : ""}">
          <figcaption>${figure.caption(data, unit, instrument)}</figcaption>
          <div class="switches controls">
            <slot name="switches"></slot>
            <annulus-chart-menu
              .label=${label}
              .showsTable=${this.showsTable}
              .showsAbout=${this.showsAbout}
              @pick=${({ detail }: CustomEvent<ChartAction>) => this.#act(detail)}
            ></annulus-chart-menu>
          </div>
        </div>
        ${this.showsAbout ? html`<p class="words" data-testid="about-chart">${about}</p>` : nothing}
        ${table ? tableView(table, label) : nothing}
      </figure>
    `;
  }

  /** Beside the drawing, in its own place: something to take hold of. */
  protected handle(): unknown {
    return nothing;
  }

  #read(): unknown {
    const { figure } = this;
    const data = (figure.read ? figure.read(this.page, this.cursor) : this.data) ?? null;
    if (!sameData(this.#data, data)) this.#data = data;
    return this.#data;
  }

  protected override updated(): void {
    // read while drawing, so that it is followed from now on
    this.#followed = this.figure.followed?.(this.page, this.cursor);
    if (this.#inSight.has(this) || !this.drawing) this.#show();
    else this.#inSight.atRest(() => this.#show());
  }

  #show(): void {
    if (this.#width.px === 0) return;
    const { figure } = this;
    const data = this.#data;
    const width = Math.floor(this.#width.px / this.zoom);
    const most = this.enlarged ? Math.floor(this.enlarged.heightPx / this.zoom) : Number.POSITIVE_INFINITY;
    const { unit } = this.page.store.parts.view;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const inputs = [width, most, unit, instrument, figure.draw, data];
    if (!this.drawing || inputs.some((input, i) => input !== this.#inputs[i])) {
      const height = Math.min(most, Math.round(figure.height(width, data)));
      const isOver = (figure.followsHand ?? true) && figure.draw === this.#drawnBy;
      const over = isOver ? this.drawing?.svg : undefined;
      const drawing = data === null ? null : figure.draw(data, { width, height, unit, instrument, over });
      this.#giveHeight(drawing ? Number(drawing.svg.getAttribute("height")) : height);
      if (!drawing) return;
      if (drawing.svg === over) endRedraw(over);
      else this.sheet.replaceChildren(drawing.svg);
      this.#inputs = inputs;
      this.#drawnFrom = data;
      this.#drawnBy = figure.draw;
      this.drawing = drawing;
    }
    figure.follow?.(this as this & { readonly drawing: Drawing }, this.#followed);
  }

  /** A drawing that changes under a resting pointer makes the browser tell of a move that was none. */
  readonly #onMove = (event: PointerEvent): void => {
    const { clientX, clientY } = event;
    if (clientX === this.#lastPlace[0] && clientY === this.#lastPlace[1]) return;
    this.#lastPlace = [clientX, clientY];
    this.figure.point?.(event, this);
  };

  #giveHeight(height: number): void {
    if (height === this.#height) return;
    this.#height = height;
    this.sheet.style.setProperty("height", `${height * this.zoom}px`);
  }

  get zoom(): number {
    return this.enlarged?.zoom ?? zoom();
  }

  placeOf({ clientX, clientY }: MouseEvent): Point {
    const { left, top } = this.sheet.getBoundingClientRect();
    return [(clientX - left) / this.zoom, (clientY - top) / this.zoom];
  }

  placeInPlot(event: MouseEvent): Point | null {
    if (!this.drawing) return null;
    const [x, y] = this.placeOf(event);
    const { left, right, top, bottom } = this.drawing.plot;
    return x >= left && x <= right && y >= top && y <= bottom ? [x, y] : null;
  }

  say(text: string): void {
    this.spoken = text;
  }

  #act(action: ChartAction): void {
    const { figure, drawing } = this;
    const { store } = this.page;
    const { document, view } = store.state;
    const name = chartFileName(document.setup, figure.name);
    if (action === "table") this.showsTable = !this.showsTable;
    else if (action === "about") this.showsAbout = !this.showsAbout;
    else if (!drawing) store.say("note", "Nothing is drawn yet.");
    else if (action === "svg") saveSvg(drawing.svg, name);
    else if (action === "csv")
      saveCsv(figure.table(this.#drawnFrom, view.unit, instrumentOf(document.setup)), name);
    else
      savePng(drawing.svg, name).catch(() =>
        store.say("error", "The browser made no picture of this chart: save it as SVG instead."),
      );
  }
}
