/** The sound: how loud it is played, what the microphone hears, the check, the take. An element of its own: it changes twenty times a second. */
import { css, html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { signed } from "../../../words/numbers.ts";
import { keptOnWords, NO_MICROPHONES } from "../../../words/sound/microphoneWords.ts";
import { checkWords } from "../../../words/swept/sweptWords.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { warning } from "../../shell/look/notice.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { levelMeter, levelMeterStyles, levelWords } from "../../sound/levelMeter.ts";
import { hasMicrophones } from "../../sound/microphone.ts";
import { PageElement } from "../../state/page.ts";
import { QUIETEST_DB, SWEEPS, type SweepSession } from "./session.ts";

@customElement("annulus-sweep-sound")
export class SoundPanel extends PageElement {
  @property({ attribute: false }) session!: SweepSession;
  /** Of one sweep. */
  @property({ attribute: false }) seconds!: number;
  /** Why a take could not be kept as things stand; empty where it could. */
  @property() wanting = "";

  static override styles = [
    controls,
    sheetStyles,
    levelMeterStyles,
    css`
      .two {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr));
        gap: 1rem 2rem;
        align-items: start;
      }
      .small {
        font-size: var(--type-14);
        max-width: 70ch;
        text-wrap: pretty;
      }
      .go {
        min-height: 4rem;
        font-size: var(--type-20);
        font-weight: 650;
        border: 2px solid var(--ink);
      }
      .go.on {
        border-color: var(--measured);
        box-shadow: inset 0 -5px 0 var(--measured);
      }
      input[type="range"] {
        width: 100%;
        min-height: var(--touch);
      }
      progress {
        width: 100%;
        accent-color: var(--measured);
      }
      .said {
        font-size: var(--type-16);
        font-weight: 600;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { phase, microphone, problem, keptOn, outputDb, check, progress } = this.session.parts;
    const isPlaying = phase === "checking" || phase === "sweeping";
    const isBusy = isPlaying || phase === "working" || microphone === "asking" || !hasMicrophones();
    const isChecked = check !== null && outputDb <= check.outputDb;
    return html`
      <div class="two">
        <div class="stack">
          <h3>1 · Level</h3>
          <label>
            <span class="small">Level of the sweep: <b>${signed(outputDb, 0)} dB</b>${outputDb === QUIETEST_DB ? ", the quietest" : ""}</span>
            <input type="range" min=${QUIETEST_DB} max="0" step="1" .value=${`${outputDb}`} data-testid="output" ?disabled=${phase === "working"} @input=${this.#setOutput} />
          </label>
          <button type="button" data-testid="check-level" ?disabled=${isBusy} @click=${() => void this.session.check()}>${icon("play")}Check the level</button>
          <p class="said" data-testid="check" role="status">${check ? checkWords(check.take) : ""}</p>
          <p class="small muted">A sweep of two seconds. Start at the quietest, raise it a little, check again.</p>
        </div>
        <div class="stack">
          <h3>2 · Sweep</h3>
          ${
            isPlaying
              ? html`<button type="button" class="go on" data-testid="stop-sweep" @click=${() => this.session.stop()}>${icon("stop")}Stop</button>`
              : html`<button type="button" class="go" data-testid="sweep" ?disabled=${isBusy || !isChecked || this.wanting !== "" || phase === "found"} @click=${() => void this.session.sweep(this.seconds)}>${icon("play")}Sweep</button>`
          }
          ${phase === "working" ? html`<progress aria-label="Working it out"></progress>` : html`<progress max="1" .value=${isPlaying ? progress : 0} aria-label="Share of the sound that has been played"></progress>`}
          <p class="small" data-testid="sweep-state" role="status">${this.#state(isChecked)}</p>
          ${microphone === "on" ? this.#level() : html`<p class="small muted">The browser asks for the microphone when you check the level.</p>`}
        </div>
      </div>
      ${problem ? warning(problem, { role: "alert", testId: "sweep-problem" }) : nothing}
      ${keptOn.length > 0 ? warning(keptOnWords(keptOn, "sweeps"), { testId: "kept-on" }) : nothing}
      ${hasMicrophones() ? nothing : html`<p class="small muted" data-testid="no-microphone">${NO_MICROPHONES} Play and record with anything else, and open the files below.</p>`}
    `;
  }

  #level() {
    const { levelDbfs, peakDbfs } = this.session.parts;
    const level = { levelDbfs, peakDbfs };
    return html`
      ${levelMeter(level)}
      <span class="small">${levelWords(level, "Too loud: turn the sweep or the microphone down.")}</span>
      <button type="button" class="plain" data-testid="microphone-off" @click=${() => this.session.closeMicrophone()}>Microphone off</button>
    `;
  }

  #state(isChecked: boolean): string {
    const { phase } = this.session.parts;
    switch (phase) {
      case "checking":
        return "Checking: quiet, please.";
      case "sweeping":
        return "Sweeping: quiet, please, and hands off the instrument.";
      case "working":
        return "Working it out…";
      case "found":
        return "Done. Keep it, or drop it and sweep again.";
      case "rest":
        return (
          this.wanting ||
          (isChecked ? `Ready: ${SWEEPS} sweeps of ${this.seconds} s.` : "Check the level first.")
        );
    }
  }

  readonly #setOutput = ({ target }: Event): void => {
    this.session.setOutput(Number((target as HTMLInputElement).value));
  };
}
