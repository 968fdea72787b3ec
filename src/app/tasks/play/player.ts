/** How the live instrument is played without the pad: sliders, sound and stop, volume, a MIDI keyboard. */

import { consume } from "@lit/context";
import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { MOST_MOUTH_PRESSURE } from "../../../../workers/voice/lipsProtocol.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { writtenPitch } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import { listenToMidi, midiPlayer } from "./midi.ts";
import { type PlaySession, type PlayState, sessionContext } from "./session.ts";

@customElement("annulus-player")
export class Player extends PageElement {
  @consume({ context: sessionContext })
  private readonly play!: PlaySession;
  @state() private midi = "";
  #midiOff = new AbortController();

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 0.75rem;
        min-width: 0;
      }
      label {
        display: grid;
        grid-template-columns: 6.5rem minmax(0, 1fr) 6.5rem;
        align-items: center;
        gap: 0.25rem 0.75rem;
        font-size: var(--type-14);
      }
      output {
        text-align: right;
        white-space: nowrap;
      }
      input[type="range"] {
        width: 100%;
        min-width: 0;
        height: var(--touch);
        margin: 0;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem;
        align-items: center;
      }
      .row button {
        min-width: 6rem;
      }
      button.sound {
        border-color: var(--ink);
        font-weight: 600;
      }
      .caution {
        display: grid;
        gap: 0.5rem;
        padding: 0.75rem;
        border: 1.5px solid var(--ink);
        font-size: var(--type-14);
      }
      .midi {
        font-size: var(--type-14);
      }
      @container sheet (max-width: 499px) {
        label {
          grid-template-columns: minmax(0, 1fr) max-content;
        }
        label input {
          grid-row: 2;
          grid-column: 1 / -1;
        }
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#midiOff.abort();
    this.midi = "";
  }

  override render() {
    const session = this.play;
    const { audio, audioRefused, isSounding, performing, blown, volume } = this.play.parts;
    const note = writtenPitch(blown.lipHz, instrumentOf(this.page.store.parts.document.setup));
    const [low, high] = session.rangeHz;
    const isOn = isSounding || performing !== null;
    const kilopascals = `${(blown.mouthPressure / 1000).toFixed(1)} kPa`;
    const lips = `${note.name} ${signed(note.cents, 0)} cents`;
    return html`
      ${audio === "on" ? nothing : this.#caution(audio)}
      ${audioRefused ? html`<p role="alert" class="caution">${audioRefused}</p>` : nothing}
      <div class="row">
        <button type="button" class="sound" data-testid="sound" ?disabled=${audio !== "on"} aria-pressed=${isSounding ? "true" : "false"} @click=${() => session.toggle()}>
          ${icon("play")}Sound
        </button>
        <button type="button" data-testid="stop-sound" aria-keyshortcuts="Escape" @click=${() => session.stop()}>${icon("stop")}Stop</button>
        <span class="muted" data-testid="sound-state" role="status">${audio === "on" ? (isOn ? "sounding" : "silent") : "sound is off"}</span>
      </div>
      <label>
        lips’ pitch
        <input
          type="range"
          data-testid="lip-pitch"
          min="0"
          max=${Math.round(1200 * Math.log2(high / low))}
          step="10"
          aria-valuetext=${`${lips}, ${blown.lipHz.toFixed(1)} hertz`}
          .value=${`${1200 * Math.log2(blown.lipHz / low)}`}
          @input=${(event: Event) => session.blow({ lipHz: low * 2 ** (sliderValue(event) / 1200) })}
        />
        <output>${lips}</output>
      </label>
      <label>
        mouth pressure
        <input
          type="range"
          data-testid="mouth-pressure"
          min="0"
          max=${MOST_MOUTH_PRESSURE / 1000}
          step="0.1"
          aria-valuetext=${kilopascals}
          .value=${`${blown.mouthPressure / 1000}`}
          @input=${(event: Event) => session.blow({ mouthPressure: 1000 * sliderValue(event) })}
        />
        <output>${kilopascals}</output>
      </label>
      <label>
        volume
        <input
          type="range"
          data-testid="volume"
          min="0"
          max="100"
          step="1"
          aria-valuetext=${`${Math.round(100 * volume)} percent`}
          .value=${`${100 * volume}`}
          @input=${(event: Event) => session.setVolume(sliderValue(event) / 100)}
        />
        <output>${Math.round(100 * volume)} %</output>
      </label>
      <div class="row">
        <button type="button" data-testid="midi" @click=${this.#onMidi}>Use a MIDI keyboard</button>
        <span class="midi" role="status" data-testid="midi-state">${this.midi}</span>
      </div>
    `;
  }

  #caution(audio: PlayState["audio"]) {
    return html`
      <div class="caution" data-testid="caution">
        <p>
          <b>Before the first sound:</b> start with the volume low and turn it up while it plays; not with in-ear phones at
          full volume. A note can set in suddenly. What leaves the page is limited to half of full scale.
        </p>
        <div>
          <button type="button" data-testid="accept" ?disabled=${audio === "opening" || !this.play.parts.voices.chosen} @click=${this.#onAccept}>
            ${audio === "opening" ? "Switching on…" : "The volume is low: switch sound on"}
          </button>
        </div>
      </div>
    `;
  }

  readonly #onAccept = async (): Promise<void> => {
    await this.play.openAudio();
    // the button is gone: on to what there is to play
    this.dispatchEvent(new CustomEvent("ready", { bubbles: true, composed: true }));
  };

  readonly #onMidi = async (): Promise<void> => {
    const session = this.play;
    this.#midiOff.abort();
    this.#midiOff = new AbortController();
    try {
      const player = midiPlayer(
        { blow: (blown) => session.blow(blown), start: () => session.start(), stop: () => session.stop() },
        MOST_MOUTH_PRESSURE,
      );
      const keyboards = (await listenToMidi(player, this.#midiOff.signal))();
      this.midi = keyboards.length
        ? `Listening to ${keyboards.join(", ")}: keys set the lips’ own pitch, velocity or breath the pressure.`
        : "No MIDI keyboard is plugged in; one that comes later is heard.";
    } catch (error) {
      this.midi = (error as Error).message;
    }
  };
}

const sliderValue = (event: Event): number => (event.target as HTMLInputElement).valueAsNumber;
