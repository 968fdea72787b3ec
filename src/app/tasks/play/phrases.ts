/** A slur or an octave leap at both gaps, the chosen one first: computed for the chart, and heard where there is sound. */

import { consume } from "@lit/context";
import { css, html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { type PlayedPhrase, phraseFigure } from "../../../charts/plots/phraseChart.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { PhraseName } from "../../../study/feel/phrase.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { noteText } from "../../../words/instruments.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import "../../chart/chartElement.ts";
import type { VoiceAtGap } from "../../../study/feel/voice.ts";
import { type AtBoth, type PlaySession, sessionContext } from "./session.ts";
import type { VoiceFollower } from "./voiceFollower.ts";

const PHRASES: readonly {
  readonly name: PhraseName;
  readonly text: (low: string, high: string) => string;
}[] = [
  { name: "slur", text: (low, high) => `Slur, ${low} to ${high}` },
  { name: "octave", text: (low, high) => `Octave slur, ${low} to ${high} and back` },
];

@customElement("annulus-phrases")
export class Phrases extends PageElement {
  @consume({ context: sessionContext })
  private readonly play!: PlaySession;
  @property({ attribute: false }) follower!: VoiceFollower;
  @state() private played: PlayedPhrase | null = null;
  @state() private isBusy = false;
  @state() private refused = "";
  /** What `played` is of. */
  #voices: AtBoth<VoiceAtGap | null> | null = null;

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 0.75rem;
        min-width: 0;
      }
      h2 {
        font-size: var(--type-20);
        font-weight: 650;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem;
        font-size: var(--type-14);
      }
      p {
        max-width: 70ch;
        font-size: var(--type-14);
        text-wrap: pretty;
      }
    `,
  ];

  override render() {
    const { voices, performing, blind, audio } = this.play.parts;
    const { gapMm, referenceGapMm } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const cannot = !voices.chosen || blind !== null || this.isBusy;
    const heard = [
      `what if, ${formatLength(gapMm, unit)}`,
      `compared with, ${formatLength(referenceGapMm, unit)}`,
    ];
    return html`
      <h2>The same lips at both gaps</h2>
      <p>One movement of lips and breath, first at the what-if gap, then at the one compared with. Whether you hear a difference is for your ear; the chart says how large it is.</p>
      <div class="row">
        ${PHRASES.map(
          ({ name, text }) => html`
            <button type="button" data-testid="phrase-${name}" ?disabled=${cannot} @click=${() => this.#perform(name)}>${icon("play")}${text(noteText(3, instrument), noteText(6, instrument))}</button>
          `,
        )}
        <span role="status" data-testid="phrase-state">
          ${this.isBusy ? "Working it out…" : performing !== null ? `Now: ${heard[performing]}` : audio !== "on" ? "Drawn only: sound is off." : ""}
        </span>
      </div>
      ${this.refused ? html`<p role="alert">${icon("warning")}${this.refused}</p>` : nothing}
      ${this.played && !blind ? html`<annulus-chart .figure=${phraseFigure} .data=${this.played}></annulus-chart>` : nothing}
      ${this.played && this.#voices !== voices ? html`<p class="muted" role="status">The gaps have moved since this was played.</p>` : nothing}
    `;
  }

  async #perform(name: PhraseName): Promise<void> {
    const session = this.play;
    const { voices } = session.value;
    this.isBusy = true;
    this.refused = "";
    const answer = await this.follower.perform(name);
    this.isBusy = false;
    if ("refused" in answer) {
      this.refused = answer.refused;
      return;
    }
    const [chosen, reference] = answer;
    this.played = { chosen, reference, feltCents: this.page.store.parts.document.setup.thresholds.cents };
    this.#voices = voices;
    await session.perform([
      { performance: chosen, voice: voices.chosen! },
      { performance: reference, voice: voices.reference! },
    ]);
  }
}
