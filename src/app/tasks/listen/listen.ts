/**
 * The listening sheet: what is to be played and at which gap, the microphone or a file, the pitch as it is heard, what was found,
 * and all that was kept. Space, K, R and D do what the large buttons do.
 */
import { fileOpen } from "browser-fs-access";
import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { type KeptTake, measuredIn, warningKinds } from "../../../listen/keptTake.ts";
import { newId } from "../../../record/job.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { LISTENING_CAUTIONS } from "../../../words/listen/testWords.ts";
import { keptOnWords, NO_MICROPHONES } from "../../../words/sound/microphoneWords.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { hasOwnUse } from "../../form/ownUse.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { keepSound } from "../../sound/keepSound.ts";
import { hasMicrophones } from "../../sound/microphone.ts";
import { Recordings } from "../../sound/recordings.ts";
import { SOUND_FILE } from "../../sound/soundFile.ts";
import { takeStyles } from "../../sound/takeStyles.ts";
import { unlessGivenUp } from "../../state/keeping/fileDialog.ts";
import { listenForm, withTake } from "../../state/notes/listen.ts";
import { PageElement } from "../../state/page.ts";
import { foundPanel } from "./foundPanel.ts";
import { isPlaced, type Place, placeOf } from "./place.ts";
import { planPanel } from "./planPanel.ts";
import "./levelView.ts";
import { listenStyles } from "./listenStyles.ts";
import { type Asked, asked } from "./question.ts";
import { RECORDINGS_OF } from "./recordingsOf.ts";
import { ListenSession } from "./session.ts";
import "./stripView.ts";
import "./takes.ts";
import { notice, warning } from "../../shell/look/notice.ts";

@customElement("annulus-listen")
export class Listen extends PageElement {
  static override styles = [controls, sheetStyles, takeStyles, listenStyles];
  readonly #session = new ListenSession();
  readonly #form = new NotesForm(this, "listen", listenForm);
  readonly #recordings = new Recordings();
  #leaving = new AbortController();
  /** Kept or dropped last, said to who hears the page. */
  @state() private said = "";

  override connectedCallback(): void {
    super.connectedCallback();
    this.#leaving = new AbortController();
    const { signal } = this.#leaving;
    window.addEventListener("keydown", this.#onKey, { signal });
    document.addEventListener("visibilitychange", () => document.hidden && void this.#session.leave(), {
      signal,
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leaving.abort("left");
    this.#session.close();
    this.#recordings.close();
  }

  protected override willUpdate(): void {
    this.#session.ask(this.#asked());
  }

  override render() {
    const { phase } = this.#session.parts;
    const isBusy = phase === "counting" || phase === "taking";
    return html`
      <main>
        <div class="stack">
          <h2>Listen</h2>
          <p class="muted">
            Measures what this player’s notes do, by the microphone: how far a note bends before it breaks, how often a slur or an
            attack misses, where a held note stands. Nothing leaves this machine; only numbers are kept, unless you ask for the sound.
          </p>
        </div>
        ${planPanel(this.#form, this.page.store.parts.document, isBusy)} ${this.#live()}
        ${this.#found()}
        <annulus-takes></annulus-takes>
        <section class="ruled stack" aria-label="Cautions">
          ${LISTENING_CAUTIONS.map((caution) => notice(caution))}
        </section>
        <p class="unseen" role="status">${this.said}</p>
      </main>
    `;
  }

  #live() {
    const { phase, microphone, problem, keptOn, count, isTired } = this.#session.parts;
    const isOn = phase === "taking" || phase === "counting";
    return html`
      <section class="ruled stack" aria-label="The microphone">
        <div class="live">
          <button type="button" class="go ${isOn ? "on" : ""}" data-testid="listen" ?disabled=${phase === "hearing" || microphone === "asking" || this.#isUndecided() || !isPlaced(this.#place()) || (!hasMicrophones() && !isOn)} @click=${this.#toggle}>
            ${isOn ? html`${icon("stop")}Stop` : html`${icon("play")}Listen`}
          </button>
          <div class="stack">
            <p class="state" data-testid="listen-state" role="status">${this.#stateWords(phase, count)}</p>
            <annulus-listen-level .session=${this.#session}></annulus-listen-level>
          </div>
        </div>
        ${problem ? warning(problem, { role: "alert", testId: "listen-problem" }) : nothing}
        ${
          keptOn.length > 0
            ? warning(keptOnWords(keptOn, "levels, soft notes and the ends of bends"), { testId: "kept-on" })
            : nothing
        }
        ${isTired ? notice("That was a good deal of playing. Rest now, as long as you played: tired lips would be taken for a gap.", { sign: "clock", testId: "rest" }) : nothing}
        <div class="actions controls">
          <button type="button" data-testid="listen-file" ?disabled=${isOn || phase === "hearing" || this.#isUndecided()} @click=${this.#openFile}>${icon("open")}Open a recording instead</button>
          ${microphone === "on" && !isOn ? html`<button type="button" class="plain" data-testid="microphone-off" @click=${() => this.#session.closeMicrophone()}>Microphone off</button>` : nothing}
          <span class="muted">Keys: Space listens and stops${phase === "heard" ? "; K keeps, R plays again, D drops" : ""}.</span>
        </div>
        ${hasMicrophones() ? nothing : html`<p class="muted" data-testid="no-microphone">${NO_MICROPHONES} Open a recording instead.</p>`}
        <annulus-listen-strip .session=${this.#session} .asked=${this.#asked()}></annulus-listen-strip>
      </section>
    `;
  }

  #stateWords(phase: string, count: number) {
    switch (phase) {
      case "counting":
        return html`${count} … <span class="muted">quiet, please: the room is measured</span>`;
      case "taking":
        return "Play.";
      case "hearing":
        return "Working it out…";
      case "heard":
        return this.#isUndecided() ? "Done. Keep it?" : "Done.";
      default:
        return "Ready.";
    }
  }

  #found() {
    const { found } = this.#session.parts;
    if (!found) return nothing;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    return foundPanel({
      found,
      instrument,
      isPlaced: isPlaced(this.#place()),
      keep: () => void this.#keep(),
      again: this.#again,
      drop: this.#drop,
    });
  }

  #asked(): Asked {
    const { document } = this.page.store.parts;
    return asked(document.notes.listen, instrumentOf(document.setup));
  }

  /** What a take would belong to. */
  #place(): Place {
    return placeOf(this.page.store.parts.document, this.page.store.parts.view.unit);
  }

  /** A take that could be kept waits to be: it is never lost to a key. */
  #isUndecided(): boolean {
    const { found } = this.#session.parts;
    return found !== null && measuredIn(found.take, found.asked.hz) !== null;
  }

  readonly #toggle = (): void => {
    const { phase } = this.#session.value;
    if (phase === "taking" || phase === "counting") void this.#session.stop();
    else if (isPlaced(this.#place()) && !this.#isUndecided()) void this.#session.listen();
  };

  readonly #openFile = async (): Promise<void> => {
    const file = await unlessGivenUp(() => fileOpen(SOUND_FILE), this.page.store);
    if (file) await this.#session.hear(file);
  };

  async #keep(): Promise<void> {
    const { store } = this.page;
    const { found } = this.#session.value;
    const measured = found && measuredIn(found.take, found.asked.hz);
    if (!found || !measured || !isPlaced(this.#place())) return;
    const { blind, gapMm } = this.#place();
    const id = newId();
    const hasSound =
      this.#form.notes.keepsSound &&
      (await keepSound(this.#recordings, RECORDINGS_OF, id, found.sound, store));
    const take: KeptTake = {
      id,
      at: new Date().toISOString(),
      partial: found.asked.partial,
      toPartial: found.asked.toPartial,
      gapMm,
      blind,
      measured,
      warnings: warningKinds(found.take.warnings),
      hasSound,
    };
    store.setNotes("listen", withTake(store.state.document.notes.listen, take));
    this.#session.drop();
    this.said = "Kept.";
  }

  readonly #again = (): void => {
    this.#session.drop();
    if (hasMicrophones()) void this.#session.listen();
  };

  readonly #drop = (): void => {
    this.#session.drop();
    this.said = "Dropped.";
  };

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    const isFound = this.#session.value.phase === "heard";
    const act =
      event.key === " "
        ? this.#toggle
        : !isFound
          ? undefined
          : { k: () => void this.#keep(), r: this.#again, d: this.#drop }[event.key.toLowerCase()];
    if (!act || hasOwnUse(event)) return;
    event.preventDefault();
    act();
  };
}
