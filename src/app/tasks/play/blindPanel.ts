/** Which of the two gaps sounds; or, blind, A and B without saying which is which, guesses, and what they are worth. */

import { consume } from "@lit/context";
import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { isSameGap } from "../../../setup/setup.ts";
import { chanceByGuessing } from "../../../study/feel/guessing.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { segments } from "../../shell/look/segments.ts";
import { PageElement } from "../../state/page.ts";
import { type Blind, type Letter, soundOf, type Which } from "./blind.ts";
import { type PlaySession, sessionContext } from "./session.ts";

const LETTERS = ["A", "B"] as const satisfies readonly Letter[];

@customElement("annulus-play-blind")
export class BlindPanel extends PageElement {
  @consume({ context: sessionContext })
  private readonly play!: PlaySession;

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 0.5rem;
        align-content: start;
        font-size: var(--type-14);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 0.75rem;
      }
      h3 {
        font-size: var(--type-16);
        font-weight: 650;
      }
      .result {
        font-size: var(--type-16);
      }
      .letters .segments button {
        min-width: 4rem;
        font-size: var(--type-20);
      }
    `,
  ];

  override render() {
    const { blind } = this.play.parts;
    return html`<h3>Two gaps by ear</h3>${blind ? this.#blind(blind) : this.#open()}`;
  }

  #open() {
    const session = this.play;
    const { hears, voices } = this.play.parts;
    const { gapMm, referenceGapMm } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const isSame = isSameGap(gapMm, referenceGapMm);
    const choices = [
      { value: "chosen" as Which, text: `what if, ${formatLength(gapMm, unit)}` },
      { value: "reference" as Which, text: `compared with, ${formatLength(referenceGapMm, unit)}` },
    ];
    return html`
      <div class="row">
        <span>The gap that sounds</span>
        ${segments("The gap that sounds", choices, hears, (which) => session.hear(which))}
      </div>
      <div class="row">
        <button type="button" data-testid="go-blind" ?disabled=${isSame || !voices.chosen} @click=${() => session.goBlind()}>Blind: A or B?</button>
        <span class="muted">
          ${isSame ? "What if is at the gap it is compared with: move one of them, and there are two to tell apart." : "The two become A and B, nobody knows which; the gaps and the pitch are hidden."}
        </span>
      </div>
    `;
  }

  #blind(blind: Blind) {
    const session = this.play;
    return html`
      <div class="row letters">
        <span>What sounds</span>
        ${segments(
          "What sounds",
          LETTERS.map((value) => ({ value, text: value })),
          blind.heard,
          (letter) => session.hearBlind(letter),
        )}
      </div>
      ${blind.guess === null ? this.#question() : this.#answer(blind, blind.guess)}
      <div class="row">
        ${blind.of > 0 ? html`<span data-testid="blind-score">${scoreWords(blind)}</span>` : nothing}
        <button type="button" data-testid="end-blind" @click=${() => session.endBlind()}>End</button>
      </div>
    `;
  }

  #question() {
    return html`
      <div class="row">
        <span>The wider gap is</span>
        ${LETTERS.map(
          (letter) => html`
            <button type="button" data-testid="guess-${letter}" @click=${() => this.play.guess(letter)}>${letter}</button>
          `,
        )}
      </div>
    `;
  }

  #answer(blind: Blind, guess: Letter) {
    const { gapMm, referenceGapMm } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const gapOf = (letter: Letter) => (soundOf(blind, letter) === "chosen" ? gapMm : referenceGapMm);
    const other = guess === "A" ? "B" : "A";
    return html`
      <p class="result" role="status" data-testid="revealed">
        ${gapOf(guess) > gapOf(other) ? "Right" : "Wrong"}: A was ${bothUnits(gapOf("A"), unit)}, B was ${bothUnits(gapOf("B"), unit)}.
      </p>
      <div class="row">
        <button type="button" data-testid="again" @click=${() => this.play.goBlind()}>Again</button>
      </div>
    `;
  }
}

/** How good the guesses are beside blind luck. */
export function scoreWords({ right, of }: Pick<Blind, "right" | "of">): string {
  const chance = 100 * chanceByGuessing(right, of);
  const share = chance < 1 ? "less than 1" : `${Math.round(chance)}`;
  return `${right} of ${of} right: a guesser does as well in ${share} % of cases.`;
}
