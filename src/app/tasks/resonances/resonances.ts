/**
 * The sheet of the instrument's own resonances: how it is set up, what is mounted and how warm it is, the sound, what was found, and
 * what all takes say together, before against after.
 */
import { fileOpen } from "browser-fs-access";
import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { newId } from "../../../record/job.ts";
import { foundIn, type KeptSweep, type Side } from "../../../response/keptSweep.ts";
import { isSameGap } from "../../../setup/setup.ts";
import { sweepPlan } from "../../../study/swept/plan.ts";
import { formatLength } from "../../../units/formatLength.ts";
import {
  planWords,
  SIDE_NAMES,
  SWEEP_CAUTIONS,
  SWEEP_CAUTIONS_SOURCE,
} from "../../../words/swept/sweptWords.ts";
import { readField } from "../../form/field.ts";
import { mountedGap, yourGap } from "../../form/gap/mountedGap.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { download } from "../../shell/download.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { keepSound } from "../../sound/keepSound.ts";
import { Recordings } from "../../sound/recordings.ts";
import { SOUND_FILE } from "../../sound/soundFile.ts";
import { takeStyles } from "../../sound/takeStyles.ts";
import { unlessGivenUp } from "../../state/keeping/fileDialog.ts";
import { ROOM, resonancesForm, SWEEP_SECONDS, THERMOMETER, withSweep } from "../../state/notes/resonances.ts";
import { PageElement } from "../../state/page.ts";
import { foundPanel } from "./foundPanel.ts";
import "./guide.ts";
import { resonancesStyles } from "./resonancesStyles.ts";
import { SWEEPS, SweepSession } from "./session.ts";
import "./soundPanel.ts";
import { SWEEPS_OF } from "./sweepsOf.ts";
import "./sweptResult.ts";
import { warning } from "../../shell/look/notice.ts";

const SIDES = (["before", "after"] as const).map((value) => ({ value, text: SIDE_NAMES[value] }));

@customElement("annulus-resonances")
export class Resonances extends PageElement {
  static override styles = [controls, sheetStyles, takeStyles, resonancesStyles];
  readonly #session = new SweepSession();
  readonly #form = new NotesForm(this, "resonances", resonancesForm);
  readonly #recordings = new Recordings();
  /** What is played instead of the page's own sweep. */
  @state() private own: File | null = null;
  /** Kept or dropped last, said to who hears the page. */
  @state() private said = "";
  #leaving = new AbortController();

  override connectedCallback(): void {
    super.connectedCallback();
    this.#leaving = new AbortController();
    document.addEventListener("visibilitychange", () => document.hidden && this.#session.closeMicrophone(), {
      signal: this.#leaving.signal,
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leaving.abort("left");
    this.#session.close();
    this.#recordings.close();
  }

  override render() {
    return html`
      <main>
        <div class="stack">
          <h2>Resonances</h2>
          <p class="muted">
            Measures the instrument itself, without a player. A small earphone sealed to the mouthpiece plays a sweep, and a microphone hears
            how the instrument answers. Sweep before and after a change, in turn, and you see how far each resonance moved. Nothing leaves
            this machine; only numbers are kept, unless you ask for the sound.
          </p>
        </div>
        <section class="ruled stack cautions" aria-label="Cautions">
          ${SWEEP_CAUTIONS.map((caution) => warning(caution))}
          <p class="small muted">${SWEEP_CAUTIONS_SOURCE}</p>
        </section>
        <section class="ruled"><annulus-sweep-guide></annulus-sweep-guide></section>
        ${this.#plan()}
        <section class="ruled stack" aria-label="The sound">
          <annulus-sweep-sound .session=${this.#session} .seconds=${this.#seconds()} .wanting=${this.#wanting()}></annulus-sweep-sound>
          ${this.#files()}
        </section>
        ${this.#found()}
        <annulus-swept .recordings=${this.#recordings}></annulus-swept>
        <p class="unseen" role="status">${this.said}</p>
      </main>
    `;
  }

  #plan() {
    const form = this.#form;
    const { notes } = form;
    const { phase } = this.#session.parts;
    const plan = sweepPlan(this.#comparable(), !notes.isCut);
    const next = this.#gapOf(plan.next).gapMm;
    return html`
      <section class="columns ruled" aria-label="What is swept" ?inert=${phase === "sweeping" || phase === "checking"}>
        <div class="stack">
          <h3>What is mounted</h3>
          ${segments<Side>("Mounted now", SIDES, notes.side, (side) => form.write({ side }))}
          <div class="pair">
            ${form.entry(resonancesForm.parts.before, ["before"], this.#gapOf("before").problem, { testId: "gap-before", hint: this.#yourGap().hint })}
            ${form.entry(resonancesForm.parts.after, ["after"], this.#gapOf("after").problem, { testId: "gap-after", hint: "The gap after the change; the same one where something else was changed." })}
          </div>
          <p data-testid="next-sweep">${next === null ? "Give the gap after the change, and the plan says what to mount." : planWords(plan, formatLength(next, form.unit))}</p>
          ${form.tick(["isCut"], "It cannot be changed back (cut, soldered)", "is-cut")}
          <p class="muted">Take turns: before, after, before, after. A drift of the air then favours neither.${notes.isCut ? " Where it cannot be changed back, take all of before first, then all of after, and mind the temperature all the more." : ""}</p>
        </div>
        <div class="stack">
          <h3>How warm</h3>
          <div class="pair">
            ${form.entry(ROOM, ["temperature"], this.#temperature().problem, { testId: "temperature", hint: "Read it anew at every take, beside the instrument." })}
            ${form.entry(THERMOMETER, ["thermometer"], this.#thermometer().problem, { testId: "thermometer", hint: "Empty: 0.2 °C. An error that is the same every time cancels." })}
          </div>
          ${form.choice(
            ["seconds"],
            "A sweep lasts",
            SWEEP_SECONDS.map((seconds) => [seconds, `${seconds} s`] as const),
            { testId: "sweep-seconds" },
          )}
          <p class="muted">A take is ${SWEEPS} sweeps, so that the clocks of player and recorder can be compared. A longer sweep stands out better from the noise.</p>
          ${form.tick(["keepsSound"], "Keep the recordings of the takes I keep, too (in this browser only)", "keeps-sweeps")}
        </div>
      </section>
    `;
  }

  #files() {
    const { phase } = this.#session.parts;
    const isBusy = phase === "sweeping" || phase === "checking" || phase === "working";
    return html`
      <div class="actions controls">
        <button type="button" data-testid="open-sweep" ?disabled=${isBusy || phase === "found"} @click=${this.#openRecording}>${icon("open")}Open a recording instead</button>
        <button type="button" data-testid="save-excitation" ?disabled=${isBusy} @click=${this.#saveExcitation}>${icon("save")}Save the sweeps (WAV)</button>
        ${
          this.own
            ? html`<button type="button" data-testid="own-excitation" @click=${() => this.#setOwn(null)}>${icon("xmark")}Played: ${this.own.name}</button>`
            : html`<button type="button" class="plain" data-testid="own-excitation" @click=${this.#openOwn}>Another sound was played…</button>`
        }
      </div>
      <p class="muted small">
        Without a microphone here: save the sweeps, play them with anything, record the answer at the same time, and open the recording.
        Recordings are compared with ${this.own ? html`<b>${this.own.name}</b>, whose clock is taken for the recorder’s` : `this page’s sweeps of ${this.#seconds()} s`}.
      </p>
    `;
  }

  #found() {
    const { found } = this.#session.parts;
    return found
      ? foundPanel({ found, place: this.#place(), keep: () => void this.#keep(), drop: this.#drop })
      : nothing;
  }

  #seconds(): number {
    return Number(this.#form.notes.seconds);
  }

  #yourGap() {
    return yourGap(this.page.store.parts.document, this.page.store.parts.view.unit);
  }

  /** What is mounted before or after; null while it is not given or cannot be read. */
  #gapOf(side: Side) {
    const { notes, unit } = this.#form;
    const otherwise = side === "before" ? this.#yourGap().gapMm : null;
    const { document } = this.page.store.parts;
    return mountedGap(resonancesForm.parts[side], notes[side], document, unit, otherwise);
  }

  #temperature() {
    return readField(ROOM, this.#form.notes.temperature, this.#form.unit);
  }

  #thermometer() {
    return readField(THERMOMETER, this.#form.notes.thermometer, this.#form.unit);
  }

  /** The takes at the gaps that stand in the form. */
  #comparable(): readonly KeptSweep[] {
    return this.#form.notes.takes.filter(({ side, gapMm }) => {
      const own = this.#gapOf(side).gapMm;
      return own !== null && isSameGap(own, gapMm);
    });
  }

  /** What is missing before a take can be kept. */
  #wanting(): string {
    if (this.#gapOf(this.#form.notes.side).gapMm === null) return "Give the gap that is mounted first.";
    if (this.#temperature().value === undefined)
      return "Give the temperature of the air in the instrument first.";
    return this.#thermometer().problem === "" ? "" : "Say how well the thermometer is read first.";
  }

  #place(): string {
    if (this.#wanting() !== "") return "";
    const { side } = this.#form.notes;
    return `${side}, ${formatLength(this.#gapOf(side).gapMm!, this.#form.unit)}, ${this.#temperature().value!.toFixed(1)} °C`;
  }

  async #keep(): Promise<void> {
    const { store } = this.page;
    const { found } = this.#session.value;
    const measured = found && foundIn(found.take);
    if (!found || !measured || this.#wanting() !== "") return;
    const { side, keepsSound } = this.#form.notes;
    const id = newId();
    const take: KeptSweep = {
      id,
      at: new Date().toISOString(),
      side,
      gapMm: this.#gapOf(side).gapMm!,
      temperatureC: this.#temperature().value!,
      temperatureUncertaintyK: this.#thermometer().value!,
      ...measured,
      hasSound: keepsSound && (await keepSound(this.#recordings, SWEEPS_OF, id, found.sound, store)),
    };
    const { resonances } = store.state.document.notes;
    const takes = withSweep(resonances.takes, take);
    store.setNotes("resonances", { ...resonances, takes });
    this.#session.drop();
    // what comes next is proposed, and a hand may choose otherwise
    this.#form.write({ side: sweepPlan(this.#comparable(), !this.#form.notes.isCut).next });
    this.said = "Kept.";
  }

  readonly #drop = (): void => {
    this.#session.drop();
    this.said = "Dropped.";
  };

  readonly #openRecording = async (): Promise<void> => {
    const file = await unlessGivenUp(() => fileOpen(SOUND_FILE), this.page.store);
    if (file) await this.#session.hear(file, this.own ? { file: this.own } : { seconds: this.#seconds() });
  };

  readonly #openOwn = async (): Promise<void> => {
    const file = await unlessGivenUp(
      () => fileOpen({ ...SOUND_FILE, extensions: [".wav"] }),
      this.page.store,
    );
    if (file) this.#setOwn(file);
  };

  #setOwn(file: File | null): void {
    this.own = file;
  }

  readonly #saveExcitation = async (): Promise<void> => {
    const seconds = this.#seconds();
    const file = await this.#session.excitation(seconds);
    if (file) download(file, `annulus-sweep-${seconds}s.wav`);
  };
}
