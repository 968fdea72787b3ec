/** The gap that is looked at, the largest thing on the sheet: your own or a what-if, its value in both units, and every way to set it but the drawing itself. */

import { computed } from "@preact/signals-core";
import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { styleMap } from "lit/directives/style-map.js";
import { gapLimits, shownGaps } from "../../../setup/gapLimits.ts";
import { gapMm as gapMmOf, isSameGap } from "../../../setup/setup.ts";
import { formatInchFraction, formatLength } from "../../../units/formatLength.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { roundedLength } from "../../../units/uncertainLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import type { Document } from "../../state/state.ts";
import "./gapField.ts";
import { gapKeys } from "./gapKeys.ts";
import { gapReadoutStyles } from "./gapReadoutStyles.ts";
import { byHand } from "./gapSteps.ts";

/** Common practice: gaps people speak of. */
const SPOKEN_OF = [
  { text: "no gap", mm: 0 },
  { text: "0.100 in", mm: 2.54 },
  { text: "1/8 in", mm: 3.175 },
] as const;

@customElement("annulus-gap")
export class GapReadout extends PageElement {
  protected override readonly waitsForFrame = true;
  protected override readonly ready = () => this.page.model.pictured();
  readonly #keys = gapKeys(() => this.page.store, 1);
  @state() private showsMore = false;
  /** Of a setup and not of a gap: it stays while a hand moves. */
  readonly #expandedMm = computed(() => this.page.model.parts.explored.value?.gapExpandedMm ?? null);

  static override styles = [controls, gapReadoutStyles];

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { document, view } = state;
    const { setup, gapMm, referenceGapMm } = document;
    const expandedMm = this.#expandedMm.value;
    const { leastMm, mostMm } = shownGaps(setup);
    const right = Math.max(mostMm, gapMm);
    const share = (mm: number) => Math.min(1, Math.max(0, (mm - leastMm) / (right - leastMm || 1)));
    const other = view.unit === "mm" ? "in" : "mm";
    const fraction = formatInchFraction(gapMm);
    const ownMm = withoutRoundingNoise(gapMmOf(setup));
    const isOwn = (mm: number) => isSameGap(mm, ownMm);
    const tightest = gapLimits(setup).leastMm;
    return html`
      <div class="value ${isOwn(gapMm) ? "own" : ""}" data-testid="gap">
        <span class="which" data-testid="gap-which">${isOwn(gapMm) ? "Your gap" : "What if the gap were"}</span>
        <span class="big"
          ><output data-testid="gap-value">${formatLength(gapMm, view.unit)}</output>${
            expandedMm === null
              ? nothing
              : html`<small data-testid="gap-uncertainty"> ± ${roundedLength(expandedMm, expandedMm, view.unit)}</small>`
          }</span
        >
        <span class="other" data-testid="gap-other">
          ${formatLength(gapMm, other)}${fraction && gapMm > 0 ? html`<span class="fraction"> · ${fraction}</span>` : nothing}
        </span>
        <div class="against" data-testid="gap-difference">${against(document, view.unit)}</div>
      </div>
      <div class="slider controls">
        <span class="mark" style=${styleMap({ left: `calc(0.75rem + ${share(referenceGapMm)} * (100% - 1.5rem))` })}></span>
        <input
          type="range"
          data-testid="gap-slider"
          aria-label="Gap"
          aria-valuetext=${`gap ${bothUnits(gapMm, view.unit)}`}
          min=${leastMm}
          max=${right}
          step="any"
          .value=${`${gapMm}`}
          @input=${(event: Event) => store.setGap(byHand(setup, wanted(event), view.unit), { commit: false })}
          @change=${() => store.setGap(store.state.document.gapMm)}
          @keydown=${this.#keys.keydown}
          @keyup=${this.#keys.keyup}
        />
        <div class="under">
          <span class="ends">${formatLength(leastMm, view.unit)}</span>
          <span class="chips">
            common practice:
            ${SPOKEN_OF.map(
              ({ text, mm }) => html`
                <button type="button" ?disabled=${mm < tightest} aria-pressed=${Math.abs(mm - gapMm) < 1e-6 ? "true" : "false"} @click=${() => store.setGap(mm)}>
                  ${text}
                </button>
              `,
            )}
          </span>
          <span class="ends">${formatLength(right, view.unit)}</span>
        </div>
      </div>
      <button
        type="button"
        class="more"
        aria-expanded=${this.showsMore ? "true" : "false"}
        @click=${this.#toggleMore}
      >
        ${icon(this.showsMore ? "chevron-down" : "chevron-up")}${this.showsMore ? "less" : "more"}
      </button>
      <div class="set controls">
        <annulus-gap-field></annulus-gap-field>
        <div class="references">
          <button type="button" ?disabled=${gapMm === referenceGapMm} @click=${() => store.setReference(gapMm)}>
            Compare with this
          </button>
          <button type="button" ?disabled=${gapMm === referenceGapMm} @click=${() => store.setGap(referenceGapMm)}>
            Back to ${isOwn(referenceGapMm) ? "your gap" : formatLength(referenceGapMm, view.unit)}
          </button>
        </div>
      </div>
    `;
  }

  /** For who is sent here to begin. */
  focusSlider(): void {
    this.renderRoot.querySelector<HTMLElement>("input[type=range]")?.focus();
  }

  readonly #toggleMore = (): void => {
    this.showsMore = !this.showsMore;
    this.classList.toggle("open", this.showsMore);
  };
}

const wanted = (event: Event): number => (event.target as HTMLInputElement).valueAsNumber;

/** How what is shown differs from what it is compared with; empty where your own gap is compared with itself. */
function against({ setup, gapMm, referenceGapMm }: Document, unit: "mm" | "in"): string {
  const change = gapMm - referenceGapMm;
  const isOwn = isSameGap(referenceGapMm, gapMmOf(setup));
  if (isSameGap(gapMm, referenceGapMm)) return isOwn ? "" : "compared with itself";
  const than = formatLength(referenceGapMm, unit);
  return (
    `${bothUnits(Math.abs(change), unit)} ${change > 0 ? "wider" : "narrower"} than ` +
    (isOwn ? `your gap, ${than}` : `${than}, which it is compared with`)
  );
}
