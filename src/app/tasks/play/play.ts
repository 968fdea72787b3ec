/** The live instrument: modelled lips on this air column, to be played and heard at two gaps. */

import { ContextProvider } from "@lit/context";
import { css, html, nothing } from "lit";
import { customElement, query } from "lit/decorators.js";
import { Cursor, cursorContext } from "../../chart/cursor.ts";
import "../../chart/projector.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/gap/gapReadout.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { feelQuestion } from "../../work/feelQuestion.ts";
import "./blindPanel.ts";
import { playByKeys } from "./keys.ts";
import "./pad.ts";
import type { PlayPadView } from "./pad.ts";
import "./leaps.ts";
import "./phrases.ts";
import "./player.ts";
import { projected } from "./projected.ts";
import "./readout.ts";
import "./resistance.ts";
import { PlaySession, sessionContext } from "./session.ts";
import "./slots.ts";
import { warning } from "../../shell/look/notice.ts";
import { VoiceFollower } from "./voiceFollower.ts";

@customElement("annulus-play")
export class Play extends PageElement {
  readonly #session = new PlaySession();
  readonly #follower = new VoiceFollower(this.#session);
  @query("annulus-play-pad") private pad!: PlayPadView;
  #leaving = new AbortController();

  constructor() {
    super();
    new ContextProvider(this, { context: cursorContext, initialValue: new Cursor() });
    new ContextProvider(this, { context: sessionContext, initialValue: this.#session });
  }

  static override styles = [
    controls,
    sheetStyles,
    css`
      main {
        display: grid;
        gap: 1.5rem;
      }
      .live {
        display: grid;
        grid-template-columns: minmax(0, 5fr) minmax(0, 4fr);
        gap: 1rem 2rem;
        align-items: start;
      }
      .hidden-gap {
        min-height: 4.5rem;
        display: grid;
        align-items: center;
      }
      /* within reach wherever the page is */
      .stop {
        position: fixed;
        right: var(--edge);
        bottom: 1rem;
        z-index: 20;
        min-width: 9rem;
        border-color: var(--ink);
        background: var(--ink);
        color: var(--paper);
        font-weight: 600;
      }
      annulus-phrases {
        padding-top: 0.75rem;
        border-top: 1.5px solid var(--ink);
      }
      @container sheet (max-width: 899px) {
        .live {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      @media print {
        .live {
          display: block;
        }
        annulus-player,
        annulus-play-readout,
        annulus-play-blind {
          display: none;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    this.#leaving = new AbortController();
    const { signal } = this.#leaving;
    const session = this.#session;
    if (this.hasUpdated) this.#follow();
    playByKeys(
      window,
      {
        stop: () => session.stop(),
        toggle: () => session.toggle(),
        chooseNote: (n) => session.chooseNote(n),
      },
      signal,
    );
    document.addEventListener("visibilitychange", () => document.hidden && session.stop(), { signal });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leaving.abort("left");
    this.#session.close();
    this.#follower.close();
  }

  protected override willUpdate(): void {
    this.#follow();
  }

  /** Lips that cannot be read, which the fields say, change nothing. */
  #follow(): void {
    const { document } = this.page.store.state;
    const { lips } = feelQuestion(document);
    if (lips) this.#follower.follow(document, lips);
    const { value } = this.page.feel.parts.slots;
    if (value) this.#session.setSlots({ reference: value[0], chosen: value[1] });
  }

  override render() {
    const { blind, refused, isSounding, performing } = this.#session.parts;
    return html`
      <main>
        ${refused ? warning(refused, { role: "alert" }) : nothing}
        ${
          blind
            ? html`<p class="lead hidden-gap">Blind: which gap is A and which is B stays hidden until you have guessed.</p>`
            : html`<annulus-gap></annulus-gap>`
        }
        <section aria-labelledby="live" class="stack">
          <h2 id="live">Play it</h2>
          <div class="live">
            <div class="stack">
              <annulus-play-pad></annulus-play-pad>
            </div>
            <div class="stack">
              <annulus-play-readout></annulus-play-readout>
              <annulus-player @ready=${() => this.pad.hold()}></annulus-player>
              <annulus-play-blind></annulus-play-blind>
            </div>
          </div>
        </section>
        <annulus-phrases .follower=${this.#follower}></annulus-phrases>
        ${blind ? nothing : html`<annulus-slots></annulus-slots><annulus-leaps></annulus-leaps><annulus-resistance></annulus-resistance><annulus-projector .figures=${projected(this.page)}></annulus-projector>`}
        ${
          isSounding || performing !== null
            ? html`<button type="button" class="stop" data-testid="stop-always" @click=${this.#stop}>${icon("stop")}Stop the sound</button>`
            : nothing
        }
      </main>
    `;
  }

  /** The button goes with the sound; the keys go on. */
  readonly #stop = (): void => {
    this.#session.stop();
    this.pad.hold();
  };
}
