/**
 * The gap in section, true to scale; the shank can be taken hold of, or moved by keys. A chart of its own kind: it has a
 * handle that lies over what is drawn.
 */
import { css, html } from "lit";
import { customElement, query } from "lit/decorators.js";
import { type CutawayDrawing, cutaway } from "../../../charts/drawings/cutaway.ts";
import { type CutawayData, cutawayTable } from "../../../charts/drawings/cutawayWords.ts";
import type { Drawing } from "../../../charts/kit/drawing.ts";
import { shownGaps } from "../../../setup/gapLimits.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { ChartElement } from "../../chart/chartElement.ts";
import type { PageFigure } from "../../chart/pageFigure.ts";
import { gapKeys } from "../../form/gap/gapKeys.ts";
import { holdGap } from "../../form/gap/holdGap.ts";

const cutawayFigure: PageFigure<CutawayData> = {
  name: "cutaway",
  label: "Receiver, shank, gap and leadpipe in section",
  about:
    "Shank, receiver and leadpipe cut open along their axis, true to scale both ways. The gap is the ring between the " +
    "shank's end and the leadpipe's start, inside; the shoulder gap seen from outside is another length. The dashed line " +
    "is where the shank ends at the gap compared with. Outer walls and shoulder are not measured.",
  caption: () => "The gap in section.",
  height: (width) => (width < 560 ? 290 : width < 900 ? 250 : 262),
  read({ store }) {
    const { setup, gapMm, referenceGapMm } = store.parts.document;
    return { setup, chosenGapMm: gapMm, referenceGapMm };
  },
  draw: cutaway,
  table: cutawayTable,
};

@customElement("annulus-cutaway")
export class CutawayView extends ChartElement {
  protected override readonly waitsForFrame = true;
  @query(".grip") private readonly grip!: HTMLElement;
  readonly #keys = gapKeys(() => this.page.store, -1);
  override figure: PageFigure<CutawayData> = {
    ...cutawayFigure,
    follow: ({ drawing }) => this.#placeGrip(drawing),
  };

  static override styles = [
    ChartElement.styles,
    css`
      /* a layout of its own: the handle's at every step of a hand is not the whole page's */
      .over {
        position: absolute;
        inset: 0;
        contain: strict;
        pointer-events: none;
      }
      .grip {
        position: absolute;
        left: 0;
        top: 0;
        pointer-events: auto;
        cursor: ew-resize;
        touch-action: pan-y pinch-zoom;
        border-radius: 3px;
      }
      .grip:focus-visible {
        outline: 2px solid var(--gap);
        outline-offset: -2px;
      }
      .grip.held {
        cursor: grabbing;
        outline: none;
      }
      .foot {
        margin-top: -2.25rem;
        pointer-events: none;
      }
      .foot * {
        pointer-events: auto;
      }
      figcaption {
        visibility: hidden;
      }
      @container sheet (max-width: 699px) {
        .foot {
          display: none;
        }
      }
    `,
  ];

  /** The handle lies over the drawn shank: the drawing is made anew at every step, a hand and the focus stay on it. */
  protected override handle() {
    const { document, view } = this.page.store.parts;
    const { leastMm, mostMm } = shownGaps(document.setup);
    return html`
      <div class="over">
        <div
          class="grip"
          role="slider"
          tabindex="0"
          data-testid="shank"
          aria-label="Mouthpiece shank: gap"
          aria-orientation="horizontal"
          aria-valuemin=${leastMm.toFixed(2)}
          aria-valuemax=${Math.max(mostMm, document.gapMm).toFixed(2)}
          aria-valuenow=${document.gapMm.toFixed(3)}
          aria-valuetext=${`gap ${bothUnits(document.gapMm, view.unit)}`}
          @pointerdown=${this.#onHold}
          @keydown=${this.#keys.keydown}
          @keyup=${this.#keys.keyup}
          @blur=${this.#keys.keyup}
        ></div>
      </div>
    `;
  }

  #placeGrip({ svg }: Drawing): void {
    const hit = svg.querySelector(".shank .hit")!;
    const [x, y, width, height] = ["x", "y", "width", "height"].map((side) => Number(hit.getAttribute(side)));
    const { style } = this.grip;
    style.setProperty("transform", `translate(${x * this.zoom}px, ${y * this.zoom}px)`);
    style.setProperty("width", `${width * this.zoom}px`);
    style.setProperty("height", `${height * this.zoom}px`);
  }

  readonly #onHold = (down: PointerEvent): void => {
    const { mmPerPx } = this.drawing as CutawayDrawing;
    const from = this.page.store.parts.document.gapMm;
    const scale = mmPerPx / this.zoom;
    this.grip.focus({ preventScroll: true });
    holdGap(this.grip, down, this.page.store, ({ clientX }) => from - (clientX - down.clientX) * scale);
  };
}
