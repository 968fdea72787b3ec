/** What sounds: the written note and its partial, frequency and concert pitch, how far the lips are from the edges of its slot. */

import { consume } from "@lit/context";
import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { cents } from "../../../study/instrument/pitch.ts";
import { concertPitch, noteText, writtenPitch } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { PageElement } from "../../state/page.ts";
import { type PlaySession, sessionContext } from "./session.ts";

@customElement("annulus-play-readout")
export class PlayReadout extends PageElement {
  @consume({ context: sessionContext })
  private readonly play!: PlaySession;
  protected override readonly paceMs = 100;
  #spoken = "";
  #speakAt = 0;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      dl {
        display: grid;
        grid-template-columns: minmax(9rem, 1fr) repeat(3, max-content);
        gap: 0.25rem 1.5rem;
        margin: 0;
      }
      dt {
        font-size: var(--type-12);
        color: var(--muted);
      }
      dd {
        margin: 0;
        font-size: var(--type-20);
        font-weight: 600;
        white-space: nowrap;
      }
      .sounds dd {
        font-size: var(--type-28);
        line-height: 1.1;
      }
      .small {
        font-size: var(--type-14);
        font-weight: 400;
      }
      @container sheet (max-width: 799px) {
        dl {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
    `,
  ];

  get #instrument(): InstrumentKind {
    return instrumentOf(this.page.store.parts.document.setup);
  }

  override render() {
    const { report, isSounding, blind } = this.play.parts;
    const hidden = blind !== null;
    const hz = isSounding ? report?.frequencyHz : null;
    const n = isSounding ? (report?.note ?? null) : null;
    const instrument = this.#instrument;
    const note = hz ? writtenPitch(hz, instrument) : null;
    const named = n === null ? note?.name : noteText(n, instrument);
    const pitch =
      hz && note && (n === null ? `${signed(note.cents, 0)} cents` : concertPitch(hz, n, instrument));
    const nothingYet = hidden ? "hidden" : "–";
    return html`
      <dl data-testid="readout">
        <div class="sounds">
          <dt>sounds</dt>
          <dd>
            <span data-testid="sounds">${hidden && note ? "something" : (named ?? (isSounding ? "nothing" : "silent"))}</span>
            <div class="small" data-testid="frequency">${hz && !hidden ? `${hz.toFixed(1)} Hz, ${pitch}` : "\u00a0"}</div>
          </dd>
        </div>
        <div>
          <dt>partial</dt>
          <dd data-testid="regime">${(isSounding && report?.note) || "–"}</dd>
        </div>
        <div>
          <dt>lips to slot’s edges</dt>
          <dd data-testid="edges">${hidden ? nothingYet : this.#edges()}</dd>
        </div>
        <div>
          <dt>cup pressure swing</dt>
          <dd data-testid="level">${isSounding && report && !hidden ? `${(report.peakToPeak / 1000).toFixed(1)} kPa` : nothingYet}</dd>
        </div>
      </dl>
      <p class="unseen" aria-live="polite">${this.#words()}</p>
    `;
  }

  /** Below and above, of the note the lips would play or do. */
  #edges(): string {
    const { report, blown, slots, voices } = this.play.parts;
    const { sounding } = this.play;
    const at = slots[sounding];
    // those of another gap would mislead
    if (!at || at.gapMm !== voices[sounding]?.gapMm) return "–";
    const { notes } = at;
    const inside = ({ slot }: (typeof notes)[number]) =>
      slot !== null && blown.lipHz >= slot.lipHz[0] && blown.lipHz <= slot.lipHz[1];
    const slot = (notes.find(({ n }) => n === report?.note) ?? notes.find(inside))?.slot;
    if (!slot) return "–";
    const below = cents(blown.lipHz, slot.lipHz[0]);
    const above = cents(slot.lipHz[1], blown.lipHz);
    if (below < 0) return `${Math.round(-below)} cents below`;
    if (above < 0) return `${Math.round(-above)} cents above`;
    return `−${Math.round(below)} … +${Math.round(above)} cents`;
  }

  /** For who hears the page: at rest, and not more often than one can follow. */
  #words(): string {
    const { report, isSounding, blind } = this.play.parts;
    const sounding =
      report?.frequencyHz && !blind
        ? report.note == null
          ? "no note of the instrument"
          : noteText(report.note, this.#instrument)
        : "sounding";
    const words = isSounding ? sounding : "silent";
    const now = performance.now();
    if (words !== this.#spoken && now >= this.#speakAt) {
      this.#spoken = words;
      this.#speakAt = now + 1500;
    }
    return this.#spoken;
  }
}
