/** What comes in by the microphone right now: its level, the room's, and the pitch that is heard. An element of its own: it changes twenty times a second. */
import { css, html } from "lit";
import { customElement, property } from "lit/decorators.js";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { writtenPitch } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { levelMeter, levelMeterStyles, levelWords } from "../../sound/levelMeter.ts";
import { PageElement } from "../../state/page.ts";
import type { ListenSession } from "./session.ts";

/** A room this loud hides the ends of soft notes. */
const LOUD_ROOM_DBFS = -45;

@customElement("annulus-listen-level")
export class LevelView extends PageElement {
  @property({ attribute: false }) session!: ListenSession;

  static override styles = [
    controls,
    levelMeterStyles,
    css`
      :host {
        display: grid;
        gap: 0.25rem;
        font-size: var(--type-14);
      }
      .heard {
        font-size: var(--type-20);
        color: var(--measured);
      }
    `,
  ];

  override render() {
    const { microphone, levelDbfs, peakDbfs } = this.session.parts;
    if (microphone !== "on")
      return html`<p class="muted">The browser asks for the microphone when you press Listen.</p>`;
    const level = { levelDbfs, peakDbfs };
    return html`
      ${levelMeter(level)}
      <span data-testid="level">${levelWords(level, "Too loud: move away or turn the input down.")}${this.#room()}</span>
      <span class="heard" data-testid="hears">${this.#heard()}</span>
    `;
  }

  #room(): string {
    const { roomDbfs } = this.session.parts;
    if (roomDbfs === null) return "";
    const room = ` · room ${signed(roomDbfs, 0)} dB: `;
    return roomDbfs > LOUD_ROOM_DBFS
      ? `${room}noisy, move closer or find a quieter place`
      : `${room}quiet enough`;
  }

  /** The written note nearest to what sounds; a blank of the same height between notes. */
  #heard() {
    const { points, phase } = this.session.parts;
    const hz = phase === "heard" || phase === "hearing" ? null : (points[points.length - 1]?.hz ?? null);
    if (hz === null) return html`&nbsp;`;
    const { name, cents } = writtenPitch(hz, instrumentOf(this.page.store.parts.document.setup));
    return `${name} ${signed(cents, 0)} cents`;
  }
}
