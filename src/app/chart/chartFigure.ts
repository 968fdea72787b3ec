/**
 * What every chart on the sheet has in common: its width follows the sheet, it is drawn once a frame and only when what it
 * shows has changed, it looks old when it is, and it has a caption, a menu, its numbers and words about it.
 */
import { consume } from "@lit/context";
import { type CSSResultGroup, css, html, nothing, type TemplateResult } from "lit";
import { query, state } from "lit/decorators.js";
import type { Drawing, Frame, Table } from "../../charts/kit/drawing.ts";
import { PageElement } from "../state/page.ts";
import type { ChartAction } from "./chartMenu.ts";
import "./chartMenu.ts";
import { controls } from "../shell/look/controls.ts";
import type { Answer } from "../work/results.ts";
import { chartFileName, saveCsv, savePng, saveSvg } from "./chartFile.ts";
import { type Cursor, cursorContext } from "./cursor.ts";
import { Lateness } from "./lateness.ts";
import { patch } from "./patch.ts";
import { tableStyles, tableView } from "./tableView.ts";
import { zoom } from "./zoom.ts";

const REST_MS = 150;

export abstract class ChartFigure extends PageElement {
  @consume({ context: cursorContext })
  protected readonly pointer!: Cursor;
  readonly #late = new Lateness(() => this.requestUpdate());
  @query(".drawing") protected readonly sheet!: HTMLElement;
  @state() private showsTable = false;
  @state() private showsAbout = false;
  @state() private spoken = "";
  protected drawing: Drawing | null = null;
  #width = 0;
  #height = 0;
  #inputs: readonly unknown[] = [];
  #lastPlace: readonly [number, number] = [Number.NaN, Number.NaN];
  #isInSight = true;
  #resting: ReturnType<typeof setTimeout> | undefined;
  readonly #sights = new IntersectionObserver((entries) => {
    this.#isInSight = entries.at(-1)!.isIntersecting;
    if (this.#isInSight) this.requestUpdate();
  });
  readonly #widths = new ResizeObserver(([{ contentRect }]) => {
    const width = Math.floor(contentRect.width);
    if (width === this.#width) return;
    this.#width = width;
    this.requestUpdate();
  });

  /** For files, `name.svg`. */
  protected abstract readonly name: string;
  protected abstract readonly label: string;
  protected abstract readonly about: string;
  /** What keys do while the drawing is held by the keyboard, for who hears the page. */
  protected readonly keysHint: string = "";
  /** Drawn anew at every step of a hand, the most of it as it was. */
  protected readonly followsHand: boolean = true;
  protected abstract caption(): TemplateResult | string;
  /** What the drawing stands on; null where nothing can be late. */
  protected abstract answer(): Answer<unknown> | null;
  /** Height of a drawing this wide, px. */
  protected abstract heightFor(width: number): number;
  /** What the whole drawing depends on, beside its frame: it is made anew when one of these is another. */
  protected abstract inputs(): readonly unknown[];
  /** Null while there is nothing to draw. */
  protected abstract draw(frame: Frame): Drawing | null;
  protected abstract table(): Table | null;
  /** The table to read, where that is another than the one to compute with. */
  protected readableTable(): Table | null {
    return this.table();
  }
  /** What `follow` depends on. */
  protected followed(): readonly unknown[] {
    return [];
  }
  /** Puts in place what follows the hand, without drawing anew. */
  protected follow(_: Drawing): void {}
  protected switches(): unknown {
    return nothing;
  }
  /** Beside the drawing, in its own place: a handle. */
  protected handle(): unknown {
    return nothing;
  }
  /** Pointer and keys on the drawing. */
  protected onPoint(_: PointerEvent): void {}
  protected onPress(_: PointerEvent): void {}
  protected onKey(_: KeyboardEvent): void {}

  static override styles: CSSResultGroup = [
    controls,
    tableStyles,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      figure {
        position: relative;
        display: flex;
        flex-direction: column;
      }
      .place {
        position: relative;
      }
      /* its size is given, so that what changes inside moves nothing outside */
      .place > .drawing {
        contain: size layout style;
        touch-action: pan-y pinch-zoom;
        user-select: none;
        -webkit-user-select: none;
      }
      .drawing svg {
        display: block;
        width: 100%;
        height: auto;
        overflow: visible;
      }
      .late .place > .drawing {
        opacity: 0.4;
      }
      .foot {
        display: flex;
        align-items: flex-start;
        justify-content: space-between;
        gap: 0.5rem;
      }
      figcaption {
        flex: 1;
        padding-top: 0.25rem;
        font-size: var(--type-14);
        color: var(--muted);
        max-width: 70ch;
        text-wrap: pretty;
      }
      .switches {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem;
      }
      .switches button,
      .switches select,
      .foot button {
        min-height: min(var(--touch), 2.75rem);
      }
      .switches label {
        font-size: var(--type-14);
      }
      .words {
        font-size: var(--type-14);
        max-width: 70ch;
        padding: 0.5rem 0.75rem;
        border-left: 3px solid var(--hairline);
      }
      .waiting {
        display: grid;
        place-items: center;
        color: var(--muted);
        font-size: var(--type-14);
        border: 1px dashed var(--hairline);
      }
      @media print {
        :host {
          break-inside: avoid;
        }
        annulus-chart-menu {
          display: none;
        }
        .place > .drawing {
          contain: none;
          height: auto !important;
        }
      }
    `,
  ];

  override render() {
    const table = this.showsTable ? this.readableTable() : null;
    return html`
      <figure class=${this.#late.isLate(this.answer()) ? "late" : ""} aria-busy=${this.#late.isLate(this.answer()) ? "true" : "false"}>
        <div class="place">
          <div
            class="drawing"
            role="group"
            aria-label=${this.label}
            aria-description=${this.keysHint}
            tabindex=${this.keysHint ? "0" : nothing}
            data-testid=${this.name}
            @pointermove=${this.#onMove}
            @pointerdown=${(event: PointerEvent) => this.onPress(event)}
            @pointerleave=${() => this.pointer.leave()}
            @keydown=${(event: KeyboardEvent) => this.onKey(event)}
            @blur=${() => this.pointer.leave()}
          ></div>
          ${this.handle()}
        </div>
        <p class="unseen" aria-live="polite">${this.spoken}</p>
        <div class="foot">
          <figcaption>${this.caption()}</figcaption>
          <div class="switches controls">
            ${this.switches()}
            <annulus-chart-menu
              .label=${this.label}
              .showsTable=${this.showsTable}
              .showsAbout=${this.showsAbout}
              @pick=${({ detail }: CustomEvent<ChartAction>) => this.#act(detail)}
            ></annulus-chart-menu>
          </div>
        </div>
        ${this.showsAbout ? html`<p class="words" data-testid="about-chart">${this.about}</p>` : nothing}
        ${table ? tableView(table, this.label) : nothing}
      </figure>
    `;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.#observe();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#widths.disconnect();
    this.#sights.disconnect();
    clearTimeout(this.#resting);
    this.#late.stop();
  }

  protected override firstUpdated(): void {
    this.#observe();
  }

  #observe(): void {
    this.#widths.observe(this.sheet);
    this.#sights.observe(this);
  }

  /** What nobody sees waits until the hand rests. */
  protected override updated(): void {
    clearTimeout(this.#resting);
    // what is drawn later is followed from now on
    this.inputs();
    this.followed();
    if (this.#isInSight || !this.drawing) this.#show();
    else this.#resting = setTimeout(() => this.#show(), REST_MS);
  }

  #show(): void {
    if (this.#width === 0) return;
    const width = Math.floor(this.#width / this.zoom);
    const { unit } = this.page.store.parts.view;
    const inputs = [width, unit, ...this.inputs()];
    if (!this.drawing || inputs.some((input, i) => input !== this.#inputs[i])) {
      const height = Math.round(this.heightFor(width));
      const drawing = this.draw({ width, height, unit });
      this.#giveHeight(drawing ? Number(drawing.svg.getAttribute("height")) : height);
      if (!drawing) return;
      this.#inputs = inputs;
      this.drawing = this.#put(drawing);
    }
    this.follow(this.drawing);
  }

  /** A drawing that changes under a resting pointer makes the browser tell of a move that was none. */
  readonly #onMove = (event: PointerEvent): void => {
    const { clientX, clientY } = event;
    if (clientX === this.#lastPlace[0] && clientY === this.#lastPlace[1]) return;
    this.#lastPlace = [clientX, clientY];
    this.onPoint(event);
  };

  #giveHeight(height: number): void {
    if (height === this.#height) return;
    this.#height = height;
    this.sheet.style.setProperty("height", `${height * this.zoom}px`);
  }

  #put(drawing: Drawing): Drawing {
    const shown = this.sheet.firstElementChild;
    if (this.followsHand && shown instanceof SVGSVGElement) {
      patch(shown, drawing.svg);
      return { ...drawing, svg: shown };
    }
    this.sheet.replaceChildren(drawing.svg);
    return drawing;
  }

  /** Screen px for one of the drawing. */
  protected get zoom(): number {
    return zoom();
  }

  /** Where in the drawing a pointer is. */
  protected placeOf({ clientX, clientY }: MouseEvent): readonly [x: number, y: number] {
    const { left, top } = this.sheet.getBoundingClientRect();
    return [(clientX - left) / this.zoom, (clientY - top) / this.zoom];
  }

  protected isInPlot(x: number, y: number): boolean {
    if (!this.drawing) return false;
    const { left, right, top, bottom } = this.drawing.plot;
    return x >= left && x <= right && y >= top && y <= bottom;
  }

  /** For who hears the page: what the read-out line says after a key. */
  protected say(text: string): void {
    this.spoken = text;
  }

  #act(action: ChartAction): void {
    const { store } = this.page;
    const name = chartFileName(store.state.document.setup, this.name);
    if (action === "table") this.showsTable = !this.showsTable;
    else if (action === "about") this.showsAbout = !this.showsAbout;
    else if (!this.drawing) store.say("note", "Nothing is drawn yet.");
    else if (action === "svg") saveSvg(this.drawing.svg, name);
    else if (action === "csv") saveCsv(this.table()!, name);
    else
      savePng(this.drawing.svg, name).catch(() =>
        store.say("error", "The browser made no picture of this chart: save it as SVG instead."),
      );
  }
}
