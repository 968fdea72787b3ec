/** The sheet: the gap, the section, what it does to the air column, and what the rule of thumb says. */

import { ContextProvider } from "@lit/context";
import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { Cursor, cursorContext } from "../../chart/cursor.ts";
import { doubtNotices } from "../../shell/doubtNotices.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { headStyles } from "../../shell/look/sheetStyles.ts";
import { jobDoubts } from "../../state/bench/doubts.ts";
import { isDemoSetup } from "../../state/keeping/demo.ts";
import { PageElement } from "../../state/page.ts";
import "./breathControl.ts";
import "./cutawayView.ts";
import "../../chart/chartElement.ts";
import { heightAgainstGap, shiftAgainstGap, spacingAgainstGap } from "./gapFigures.ts";
import "../../form/gap/gapReadout.ts";
import type { GapReadout } from "../../form/gap/gapReadout.ts";
import "../../form/setup/warnings.ts";
import { hint, hintStyles } from "./hint.ts";
import { impedanceFigure, magnitudeSwitch } from "./impedanceFigure.ts";
import "./longWork.ts";
import { projected } from "./projected.ts";
import "./retuneSwitch.ts";
import { resonanceChoice, standingWaveFigure } from "./standingWaveFigure.ts";
import "./verdictStrip.ts";
import "./welcome.ts";

/** A hand that lets go, not one that takes hold: nothing moves under it when the hints go. */
const TOUCHES = ["pointerup", "keydown"] as const;

@customElement("annulus-explore")
export class Explore extends PageElement {
  /** A newcomer's question and ways in; gone once one is taken, and at the next visit of whoever has touched anything. */
  @state() private welcomes = false;

  constructor() {
    super();
    new ContextProvider(this, { context: cursorContext, initialValue: new Cursor() });
  }

  /** Touches are watched for anywhere on the page: who opens the editor has begun too. */
  override connectedCallback(): void {
    super.connectedCallback();
    this.welcomes = !this.page.store.state.view.hintsSeen;
    this.page.compared.blow(true);
    for (const touch of TOUCHES) addEventListener(touch, this.#onTouch, { capture: true });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.page.compared.blow(false);
    for (const touch of TOUCHES) removeEventListener(touch, this.#onTouch, { capture: true });
  }

  static override styles = [
    controls,
    headStyles,
    hintStyles,
    css`
      :host {
        display: block;
        container: sheet / inline-size;
      }
      .sheet {
        display: grid;
        grid-template-columns: minmax(0, 2fr) minmax(0, 1fr);
        grid-template-areas:
          "gap gap"
          "cutaway cutaway"
          "air verdicts"
          "against against"
          "sure sure";
        gap: 1rem 2rem;
        padding: 0.75rem var(--edge) 1.5rem;
      }
      annulus-gap {
        grid-area: gap;
      }
      annulus-uncertainty {
        grid-area: sure;
        min-width: 0;
      }
      /* the places of what comes after the first curve: a closed panel's head, a button */
      annulus-uncertainty:not(:defined) {
        min-height: calc(0.75rem + 1px + 1.35 * var(--type-20));
      }
      annulus-projector:not(:defined) {
        min-height: var(--touch);
      }
      .cutaway {
        grid-area: cutaway;
        position: relative;
        min-width: 0;
      }
      .air {
        grid-area: air;
        display: grid;
        gap: 1.25rem;
        align-content: start;
        min-width: 0;
      }
      .verdicts {
        grid-area: verdicts;
        position: relative;
        min-width: 0;
        padding-left: 1.5rem;
        border-left: 1px solid var(--hairline);
      }
      .against {
        grid-area: against;
        position: relative;
        min-width: 0;
        padding-top: 0.75rem;
        border-top: 1.5px solid var(--ink);
      }
      .head annulus-long-work {
        flex: 1;
      }
      .charts {
        display: grid;
        grid-template-columns: repeat(3, minmax(0, 1fr));
        gap: 1rem 1.5rem;
      }
      .doubts {
        padding: 0.75rem var(--edge) 0;
      }
      .notice {
        display: flex;
        gap: 0.5rem;
        padding: 0.5rem 0.75rem;
        border: 1.5px solid var(--gap);
        font-size: var(--type-14);
      }
      .notice a {
        color: inherit;
      }
      .refused {
        grid-column: 1 / -1;
        display: flex;
        gap: 0.5rem;
        padding: 0.5rem 0.75rem;
        border: 1.5px solid var(--gap);
      }
      @container sheet (max-width: 1099px) {
        .sheet {
          grid-template-columns: minmax(0, 1fr);
          grid-template-areas: "gap" "cutaway" "verdicts" "air" "against" "sure";
        }
        .verdicts {
          padding-left: 0;
          border-left: 0;
        }
        .charts {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
        .charts > :last-child {
          grid-column: 1 / -1;
        }
      }
      @container sheet (max-width: 699px) {
        .charts {
          grid-template-columns: minmax(0, 1fr);
          gap: 1.5rem;
        }
      }
      @media (max-width: 699px) {
        .sheet {
          display: flex;
          flex-direction: column;
          padding-bottom: 0;
        }
        /* under the thumb, over everything, all the way down */
        annulus-gap {
          order: 9;
          position: sticky;
          bottom: 0;
          z-index: 15;
          margin: 0 calc(-1 * var(--edge));
          padding: 0.5rem var(--edge) 0.35rem;
          background: var(--paper);
          border-top: 1.5px solid var(--ink);
        }
      }
      @media print {
        .sheet {
          display: block;
        }
        .sheet > * {
          margin-bottom: 1rem;
        }
        .charts {
          grid-template-columns: 1fr 1fr 1fr;
        }
        .charts > :last-child {
          grid-column: auto;
        }
        /* the second page then ends with the sheet */
        .air {
          width: 80%;
        }
        .verdicts {
          padding: 0;
          border: 0;
        }
      }
    `,
  ];

  override render() {
    const { store, model } = this.page;
    const first = !store.parts.view.hintsSeen;
    const { refused } = model.parts.explored;
    const { setup, notes, breathLitresPerMinute } = store.parts.document;
    const isBlown = breathLitresPerMinute !== undefined;
    if (isBlown) this.#fetchBlown();
    const { unit } = store.parts.view;
    const doubts = doubtNotices(jobDoubts({ setup, notes }, unit), unit);
    return html`
      ${this.welcomes && isDemoSetup(setup) ? html`<annulus-welcome @try-demo=${this.#tryDemo}></annulus-welcome>` : nothing}
      ${doubts.length > 0 ? html`<section class="doubts" aria-label="What contradicts the gap">${doubts}</section>` : nothing}
      <main class="sheet">
        ${refused ? html`<p class="refused" role="alert">${icon("warning")}<span>${refused}</span></p>` : nothing}
        <annulus-gap></annulus-gap>
        <section class="cutaway" aria-label="The gap in section">${hint(1, first)}<annulus-cutaway></annulus-cutaway><annulus-warnings></annulus-warnings></section>
        <section class="verdicts" aria-label="Rule of thumb and model">${hint(2, first)}<annulus-verdicts></annulus-verdicts></section>
        <section class="air" aria-label="The air column">
          <annulus-breath class="controls"></annulus-breath>
          ${isBlown ? html`<annulus-breath-finding></annulus-breath-finding>` : nothing}
          <annulus-chart .figure=${impedanceFigure}>${magnitudeSwitch(store)}</annulus-chart>
          <annulus-chart .figure=${standingWaveFigure(store)}>${resonanceChoice(store)}</annulus-chart>
          ${isBlown ? html`<annulus-gap-stream></annulus-gap-stream>` : nothing}
        </section>
        <section class="against">
          <div class="head over">
            <h2>Effect of gap width${isBlown ? `, blown with ${breathLitresPerMinute} L/min` : nothing}</h2>
            ${hint(3, first)}
            <annulus-retune class="controls"></annulus-retune>
            <annulus-long-work></annulus-long-work>
          </div>
          <div class="charts">
            <annulus-chart .figure=${heightAgainstGap}></annulus-chart>
            <annulus-chart .figure=${shiftAgainstGap}></annulus-chart>
            <annulus-chart .figure=${spacingAgainstGap}></annulus-chart>
          </div>
        </section>
        <annulus-uncertainty></annulus-uncertainty>
        <annulus-projector .figures=${projected(store)}></annulus-projector>
      </main>
    `;
  }

  /** What only a breath shows comes with the first one. */
  #fetchBlown(): void {
    Promise.all([import("./breathFinding.ts"), import("./gapStream.ts")]).catch(() =>
      this.page.store.say(
        "error",
        "What a breath does could not be fetched; the curve is blown all the same. Load the page again.",
      ),
    );
  }

  readonly #tryDemo = (): void => {
    this.welcomes = false;
    this.page.store.setView({ hintsSeen: true });
    this.renderRoot.querySelector<GapReadout>("annulus-gap")?.focusSlider();
  };

  /** The hints go at the first touch, for good; walking through the page by Tab is no touch. */
  readonly #onTouch = (event: Event): void => {
    if (this.page.store.parts.view.hintsSeen) return;
    if (event instanceof KeyboardEvent && ["Tab", "Shift", "Control", "Alt", "Meta"].includes(event.key))
      return;
    this.page.store.setView({ hintsSeen: true });
  };
}
