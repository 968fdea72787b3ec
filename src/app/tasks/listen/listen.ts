/**
 * The listening sheet: what is to be played and at which gap, the microphone or a file, the pitch as it is heard, what was found,
 * and all that was kept. Space, K, R and D do what the large buttons do.
 */
import { fileOpen } from "browser-fs-access";
import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { type KeptTake, measuredIn, warningKinds } from "../../../listen/keptTake.ts";
import { TAKE_TESTS, type TakeTest } from "../../../listen/takeQuestion.ts";
import { newId } from "../../../record/job.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { nextGapMm } from "../../../study/listened/order.ts";
import { isFinished } from "../../../trial/trial.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { noteText } from "../../../words/instruments.ts";
import { LISTENING_CAUTIONS, TEST_HOW, TEST_NAMES, TEST_TELLS } from "../../../words/listen/measuredWords.ts";
import { keptOnWords, NO_MICROPHONES } from "../../../words/sound/microphoneWords.ts";
import { mountedGap, yourGap } from "../../form/gap/mountedGap.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { hasOwnUse } from "../../form/ownUse.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { keepSound } from "../../sound/keepSound.ts";
import { hasMicrophones } from "../../sound/microphone.ts";
import { Recordings } from "../../sound/recordings.ts";
import { SOUND_FILE } from "../../sound/soundFile.ts";
import { takeStyles } from "../../sound/takeStyles.ts";
import { unlessGivenUp } from "../../state/keeping/setupFile.ts";
import { LISTENED, listenedNotes, listenForm, MOUNTED, withTake } from "../../state/notes/listen.ts";
import { PageElement } from "../../state/page.ts";
import { foundPanel } from "./foundPanel.ts";
import "./levelView.ts";
import { listenStyles } from "./listenStyles.ts";
import { type Asked, asked, isHeard } from "./question.ts";
import { RECORDINGS_OF } from "./recordingsOf.ts";
import { ListenSession } from "./session.ts";
import "./stripView.ts";
import "./takes.ts";

const TESTS = TAKE_TESTS.map((value) => ({ value, text: TEST_NAMES[value] }));

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
    return html`
      <main>
        <div class="stack">
          <h2>Listen</h2>
          <p class="muted">
            Measures what this player’s notes do, by the microphone: how far a note bends before it breaks, how often a slur or an
            attack misses, where a held note stands. Nothing leaves this machine; only numbers are kept, unless you ask for the sound.
          </p>
        </div>
        ${this.#plan()} ${this.#live()}
        ${this.#found()}
        <annulus-takes></annulus-takes>
        <section class="ruled stack" aria-label="Cautions">
          ${LISTENING_CAUTIONS.map((caution) => html`<p class="notice">${icon("info")}<span>${caution}</span></p>`)}
        </section>
        <p class="unseen" role="status">${this.said}</p>
      </main>
    `;
  }

  #plan() {
    const form = this.#form;
    const { notes } = form;
    const { document } = this.page.store.parts;
    const instrument = instrumentOf(document.setup);
    const { partial, toPartial } = listenedNotes(notes);
    const choices = Array.from({ length: LISTENED.most - LISTENED.least + 1 }, (_, i) => LISTENED.least + i)
      .filter((n) => isHeard(instrument, n))
      .map((n) => [n, noteText(n, instrument)] as const);
    const isBusy = this.#session.parts.phase === "counting" || this.#session.parts.phase === "taking";
    return html`
      <section class="columns ruled" aria-label="What is played" ?inert=${isBusy}>
        <div class="stack">
          <h3>What is played</h3>
          ${segments<TakeTest>("Test", TESTS, notes.test, (test) => form.write({ test }))}
          <div class="pair">
            ${form.choice(["note"], notes.test === "slur" ? "One note" : "Note", choices, { testId: "listen-note" })}
            ${
              notes.test === "slur"
                ? form.choice(["toNote"], "Other note", [[null, "the next one up"], ...choices], {
                    testId: "listen-to-note",
                  })
                : nothing
            }
          </div>
          <p class="muted" data-testid="listen-how"><b>${TEST_TELLS[notes.test]}</b> ${TEST_HOW[notes.test]}</p>
          <p class="muted">
            ${toPartial === null ? noteText(partial, instrument) : `${noteText(partial, instrument)} to ${noteText(toPartial, instrument)}`},
            open: no valve down, slide in first position.
          </p>
        </div>
        <div class="stack">
          <h3>At which gap</h3>
          ${this.#place()}
          ${form.tick(["keepsSound"], "Keep the sound of the takes I keep, too (in this browser only)", "keeps-sound")}
        </div>
      </section>
    `;
  }

  #place() {
    const form = this.#form;
    const { notes } = form;
    const sealed = this.page.store.parts.document.notes.trial.trials.filter((one) => !isFinished(one));
    const trial = sealed.find(({ id }) => id === notes.trial) ?? null;
    const choice =
      sealed.length > 0
        ? form.choice(
            ["trial"],
            "The take belongs to",
            [
              ["", "a gap"],
              ...sealed.map(({ id, turns }) => [id, `a blind trial (${turns[0].code} …)`] as const),
            ],
            { testId: "listen-trial" },
          )
        : nothing;
    if (trial)
      return html`${choice}
      ${form.choice(
        ["code"],
        "Code mounted now",
        [
          ["", "choose"] as const,
          ...trial.turns.map(({ code }, i) => [code, `${code} (turn ${i + 1})`] as const),
        ],
        { testId: "listen-code" },
      )}
      <p class="muted">What the code stands for stays sealed: the take is told with its gap once the trial is opened.</p>`;
    return html`
      ${choice}
      ${form.entry(MOUNTED, ["gap"], this.#gap().problem, { testId: "listen-gap", hint: this.#yourGap().hint })}
      ${this.#next()}
    `;
  }

  /** Order and rest weigh as much as gaps do. */
  #next() {
    const { document, view } = this.page.store.parts;
    const { listen } = document.notes;
    const { partial, toPartial } = listenedNotes(listen);
    const own = listen.takes.filter(
      (take) =>
        take.measured.test === listen.test && take.partial === partial && take.toPartial === toPartial,
    );
    const next = nextGapMm(own.flatMap(({ gapMm }) => gapMm ?? []));
    return next === null
      ? html`<p class="muted">Listen at two gaps or more, each twice at least, there and back again: lips warm up and tire.</p>`
      : html`<p class="muted" data-testid="next-gap">For a balanced order, next: <b>${formatLength(next, view.unit)}</b>.</p>`;
  }

  #live() {
    const { phase, microphone, problem, keptOn, count, isTired } = this.#session.parts;
    const isOn = phase === "taking" || phase === "counting";
    return html`
      <section class="ruled stack" aria-label="The microphone">
        <div class="live">
          <button type="button" class="go ${isOn ? "on" : ""}" data-testid="listen" ?disabled=${phase === "hearing" || microphone === "asking" || this.#isUndecided() || !this.#isPlaced() || (!hasMicrophones() && !isOn)} @click=${this.#toggle}>
            ${isOn ? html`${icon("stop")}Stop` : html`${icon("play")}Listen`}
          </button>
          <div class="stack">
            <p class="state" data-testid="listen-state" role="status">${this.#stateWords(phase, count)}</p>
            <annulus-listen-level .session=${this.#session}></annulus-listen-level>
          </div>
        </div>
        ${problem ? html`<p class="notice wrong" role="alert" data-testid="listen-problem">${icon("warning")}<span>${problem}</span></p>` : nothing}
        ${
          keptOn.length > 0
            ? html`<p class="notice wrong" data-testid="kept-on">${icon("warning")}<span>${keptOnWords(keptOn, "levels, soft notes and the ends of bends")}</span></p>`
            : nothing
        }
        ${isTired ? html`<p class="notice" data-testid="rest">${icon("clock")}<span>That was a good deal of playing. Rest now, as long as you played: tired lips would be taken for a gap.</span></p>` : nothing}
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
      isPlaced: this.#isPlaced(),
      keep: () => void this.#keep(),
      again: this.#again,
      drop: this.#drop,
    });
  }

  #asked(): Asked {
    const { document } = this.page.store.parts;
    return asked(document.notes.listen, instrumentOf(document.setup));
  }

  #yourGap() {
    return yourGap(this.page.store.parts.document, this.page.store.parts.view.unit);
  }

  /** What is mounted; null while it cannot be read. */
  #gap() {
    const { notes, unit } = this.#form;
    return mountedGap(MOUNTED, notes.gap, this.page.store.parts.document, unit, this.#yourGap().gapMm);
  }

  #blind(): KeptTake["blind"] {
    const { listen, trial } = this.page.store.parts.document.notes;
    const sealed = trial.trials.find((one) => one.id === listen.trial && !isFinished(one));
    return sealed ? { trial: sealed.id, code: listen.code } : null;
  }

  /** Whether it is known what a take would belong to. */
  #isPlaced(): boolean {
    const blind = this.#blind();
    return blind ? blind.code !== "" : this.#gap().gapMm !== null;
  }

  /** A take that could be kept waits to be: it is never lost to a key. */
  #isUndecided(): boolean {
    const { found } = this.#session.parts;
    return found !== null && measuredIn(found.take, found.asked.hz) !== null;
  }

  readonly #toggle = (): void => {
    const { phase } = this.#session.value;
    if (phase === "taking" || phase === "counting") void this.#session.stop();
    else if (this.#isPlaced() && !this.#isUndecided()) void this.#session.listen();
  };

  readonly #openFile = async (): Promise<void> => {
    const file = await unlessGivenUp(() => fileOpen(SOUND_FILE), this.page.store);
    if (file) await this.#session.hear(file);
  };

  async #keep(): Promise<void> {
    const { store } = this.page;
    const { found } = this.#session.value;
    const measured = found && measuredIn(found.take, found.asked.hz);
    if (!found || !measured || !this.#isPlaced()) return;
    const blind = this.#blind();
    const id = newId();
    const hasSound =
      this.#form.notes.keepsSound &&
      (await keepSound(this.#recordings, RECORDINGS_OF, id, found.sound, store));
    const take: KeptTake = {
      id,
      at: new Date().toISOString(),
      partial: found.asked.partial,
      toPartial: found.asked.toPartial,
      gapMm: blind ? null : this.#gap().gapMm,
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
