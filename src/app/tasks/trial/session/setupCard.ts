/**
 * The card for the assistant: turn by turn, which code stands for what. It is the key of the trial: it is made only when it
 * is asked for in so many words.
 */
import { html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { wrapForGapMm } from "../../../../bench/cut/wrap.ts";
import { setupSeatTaper } from "../../../../bench/fit/setupSeatTaper.ts";
import type { Setup } from "../../../../setup/setup.ts";
import { repeatsOf, type Trial, type Turn } from "../../../../trial/trial.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { mmPerUnit } from "../../../../units/lengthUnit.ts";
import { bothUnits, signed } from "../../../../words/numbers.ts";
import type { JobNames } from "../../../state/record/jobNames.ts";
import { cardNames } from "./cardNames.ts";
import { setupCardStyles } from "./setupCardStyles.ts";

/** With more, the card goes on over another page, which says whose it is as well. */
const TURNS_OF_A_PAGE = 32;

@customElement("annulus-trial-card")
export class SetupCard extends LitElement {
  @property({ attribute: false }) trial!: Trial;
  @property({ attribute: false }) setup!: Setup;
  /** As it is at the bench, mm: what the turns are told from. */
  @property({ attribute: false }) presentMm!: number;
  @property({ attribute: false }) names!: JobNames;
  @property() unit: LengthUnit = "mm";

  static override styles = setupCardStyles;

  override render() {
    const { trial, setup } = this;
    const isGaps = trial.items.every((item) => item.gapMm !== null);
    const { length } = trial.items;
    const whose = cardNames(this.names, trial);
    return html`
      <header>
        <p class="warning">Not for the player, nor for the listener</p>
        <h3>Set-up card of a blind trial</h3>
        ${whose.map((line) => html`<p>${line}</p>`)}
        <p>${trial.turns.length} turns, ${repeatsOf(trial)} repeats of ${length}</p>
      </header>
      <ol class="rules">
        <li>Out of sight, take the mouthpiece out before every turn and seat it again, even where nothing changes.</li>
        <li>Say the code and nothing else. Tick the turn when it has been played.</li>
        ${isGaps ? html`<li>Each gap by an adjustable receiver, a matched shank or a wrap, measured after it is made: a mouthpiece pulled out is off its seat. The receiver's depth is ${bothUnits(setup.receiver.depthMm, this.unit)}, the gap now ${bothUnits(this.presentMm, this.unit)}.</li>` : nothing}
      </ol>
      <table>
        <thead>
          ${trial.turns.length > TURNS_OF_A_PAGE ? html`<tr class="running"><td colspan="7">${["Set-up card", ...whose].join(" · ")}</td></tr>` : nothing}
          <tr>
            <th class="turn">turn</th>
            <th>code</th>
            ${isGaps ? html`<th>gap to mount</th><th>insertion when seated</th><th>gap against now</th><th>wrap, if used</th>` : html`<th>to mount</th>`}
            <th class="tick">played</th>
          </tr>
        </thead>
        <tbody>
          ${trial.turns.map((turn, i) => this.#row(turn, i, i > 0 && i % length === 0))}
        </tbody>
      </table>
    `;
  }

  #row({ code, item }: Turn, at: number, startsRepeat: boolean) {
    const { name, gapMm: mounted } = this.trial.items[item];
    return html`
      <tr class=${startsRepeat ? "repeat" : ""}>
        <td class="turn">${at + 1}</td>
        <th scope="row">${code}</th>
        ${mounted === null ? html`<td>${name}</td>` : this.#gap(mounted)}
        <td class="tick"><span class="box" aria-hidden="true"></span></td>
      </tr>
    `;
  }

  #gap(mounted: number) {
    const { setup, unit } = this;
    const wider = mounted - this.presentMm;
    const wrap = formatLength(wrapForGapMm(wider, setupSeatTaper(setup)), unit, unit === "mm" ? 3 : 4);
    const by = signed(Math.abs(wider) / mmPerUnit(unit)!, unit === "mm" ? 2 : 3).replace("+", "");
    return html`
      <td>${bothUnits(mounted, unit)}</td>
      <td>${formatLength(setup.receiver.depthMm - mounted, unit)}</td>
      <td>${Number(by) === 0 ? "as it is" : `${by} ${unit} ${wider > 0 ? "more" : "less"}`}</td>
      <td>${wider > 0 && Number(by) !== 0 ? wrap : "–"}</td>
    `;
  }
}
