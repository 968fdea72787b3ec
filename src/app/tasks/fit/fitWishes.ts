/** What the gaps are held against: the gap that the player prefers, and the clearance that counts as touching. */
import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import { defaultClearanceMm } from "../../../bench/fit/fit.ts";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { controls } from "../../shell/look/controls.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import type { FitNotes } from "../../state/notes/fitNotes.ts";
import type { ChangeOptions } from "../../state/store.ts";
import type { FitReading } from "./fitReading.ts";

@customElement("annulus-fit-wishes")
export class FitWishes extends LitElement {
  @property({ attribute: false }) reading!: FitReading;
  @property({ attribute: false }) setup!: Setup;
  @property({ attribute: false }) write!: (written: Partial<FitNotes>, options?: ChangeOptions) => void;

  static override styles = [
    controls,
    sheetStyles,
    css`
      :host {
        display: grid;
        gap: 0.75rem;
        container-type: normal;
      }
      .wishes {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(13rem, 100%), 1fr));
        gap: 0.75rem 1.5rem;
        align-items: start;
        max-width: 36rem;
      }
    `,
  ];

  override render() {
    const { notes, preferredProblem, clearanceProblem } = this.reading;
    const { unit } = notes;
    const field = (key: "preferred" | "clearance", label: string, hint: string, problem: string) => html`
      <annulus-entry
        data-testid=${key}
        .label=${label}
        .hint=${hint}
        .unit=${unit}
        .text=${notes[key]}
        .problem=${problem}
        @write=${({ detail }: WriteEvent) => this.write({ [key]: detail.text }, { commit: detail.done })}
      ></annulus-entry>
    `;
    const clearance = formatLength(defaultClearanceMm, unit, unit === "mm" ? 2 : 4);
    const ownMm = gapMm(this.setup);
    return html`
      <div class="wishes">
        ${field("preferred", "Preferred gap", "the player's; empty for none", preferredProblem)}
        ${field("clearance", "Counts as touching", `up to this clearance; empty for ${clearance}`, clearanceProblem)}
      </div>
      <div class="actions controls">
        <button type="button" data-testid="prefer-setup" @click=${() => this.write({ preferred: lengthText(ownMm, unit) })}>
          Prefer this setup's gap, ${bothUnits(ownMm, unit)}
        </button>
      </div>
    `;
  }
}
