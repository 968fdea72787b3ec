/** Which of my mouthpieces gives which gap in which of my instruments, and why instruments of one model feel different. */

import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { gapMm } from "../../../setup/setup.ts";
import { fitMatrixCsv } from "../../../words/bench/fitMatrixCsv.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { doubtNotices } from "../../shell/doubtNotices.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { jobDoubts } from "../../state/bench/doubts.ts";
import { namedGaps } from "../../state/bench/namedGaps.ts";
import { type FitNotes, fitForm } from "../../state/notes/fit.ts";
import { PageElement } from "../../state/page.ts";
import type { ChangeOptions } from "../../state/store.ts";
import { type FitReading, readFit } from "./fitReading.ts";
import { fitStyles } from "./fitStyles.ts";
import { fitWishes, wishesStyles } from "./fitWishes.ts";
import "./matrixGrid.ts";
import type { Pair } from "./matrixGrid.ts";
import "./pairDetail.ts";
import { type AnyPart, type PartKind, partTables } from "./partTables.ts";
import "./partTableView.ts";
import type { PartsChange } from "./partTableView.ts";
import { partsOfSetup, withPair } from "./setupParts.ts";
import "./spreadPanel.ts";
import { saveTableFile } from "../../shell/tableFiles.ts";
import { typedPart } from "./typedPart.ts";

/** Between two readings, times as long as one took. */
const REST_PER_READING = 4;

/** A reading and what it was of. */
interface Kept {
  readonly notes: FitNotes;
  readonly reading: FitReading;
}

@customElement("annulus-fit")
export class FitSheet extends PageElement {
  /** The cell looked at; it stays in place when a table becomes shorter. */
  @state() private chosen: Pair = { mouthpiece: 0, instrument: 0 };
  /** Why the pair of a cell could not be used. */
  @state() private refused: { readonly text: string; readonly of: FitReading } | null = null;
  /** Longer after a reading that took long, so that a hand types on undisturbed in large tables. */
  protected override paceMs = 0;
  #read: Kept | undefined;

  #drawn: Kept | undefined;

  static override styles = [controls, sheetStyles, fitStyles, wishesStyles];
  readonly #form = new NotesForm(this, "fit", fitForm);

  get #reading(): FitReading {
    const { notes } = this.#form;
    if (this.#read?.notes !== notes) {
      const before = performance.now();
      this.#read = { notes, reading: readFit(notes, notes.unit) };
      this.paceMs = REST_PER_READING * (performance.now() - before);
    }
    return this.#read.reading;
  }

  /** What needs no reading is drawn at once: a cell chosen, a setup altered. */
  protected override updated(): void {
    if (this.#drawn === this.#read) this.paceMs = 0;
    this.#drawn = this.#read;
  }

  override render() {
    const reading = this.#reading;
    const { notes, parts } = reading;
    const { setup, notes: jobNotes } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const isEmpty = notes.mouthpieces.length + notes.instruments.length === 0;
    const hasPairs = parts.mouthpieces.length > 0 && parts.instruments.length > 0;
    return html`
      <main>
        <section class="stack">
          <h2>Which mouthpiece gives which gap in which instrument</h2>
          <p class="about">
            Predicted from five dimensions: diameter at the shank's end and its taper, diameter at the receiver's face, its
            taper and its depth. Give a standard uncertainty u beside each and every gap carries its own. Lengths as 24.54,
            0.966 in or 1/8 in; tapers as 0.05, 1:20 or 0.6 in/ft; empty is unknown.
          </p>
          ${doubtNotices(jobDoubts({ setup, notes: jobNotes }, unit), unit)}
          ${isEmpty ? this.#start() : nothing}
          <div class="tables">
            <div class="stack">
              ${this.#table("mouthpieces", reading)} ${fitWishes(this.#form, reading, namedGaps(this.page.store.state.document, unit))}
            </div>
            ${this.#table("instruments", reading)}
          </div>
        </section>
        ${hasPairs ? this.#results(reading) : isEmpty ? nothing : html`<p class="notice">${icon("info")}${this.#missing(reading)}</p>`}
      </main>
    `;
  }

  #missing({ parts }: FitReading): string {
    return parts.mouthpieces.length === 0
      ? "Give at least one mouthpiece to see its gaps."
      : "Give at least one instrument to see the gaps in it.";
  }

  #start() {
    const { name } = this.page.store.parts.document.setup;
    return html`
      <div class="start">
        <p>Begin with what you have measured: add a row and type it, or paste a table from a spreadsheet over the row; open a CSV file for either table; or</p>
        <div class="actions controls">
          <button type="button" data-testid="begin-setup" @click=${this.#beginWithSetup}>Begin with this setup's own pair</button>
          <button type="button" data-testid="begin-demo" @click=${this.#beginWithDemo}>Load the invented demo tables</button>
        </div>
        <p class="muted">The open setup is ${name}. The demo's 5 mouthpieces and 12 instruments are invented: none of them exists.</p>
      </div>
    `;
  }

  #table(kind: PartKind, reading: FitReading) {
    return html`
      <annulus-part-table
        data-testid=${kind}
        .kind=${kind}
        .parts=${reading.notes[kind]}
        .rows=${reading[kind]}
        .unit=${reading.notes.unit}
        .own=${this.#own(kind)}
        .write=${(change: PartsChange, options?: ChangeOptions) =>
          this.#form.write({ [kind]: change(this.#form.notes[kind]) }, options)}
      ></annulus-part-table>
    `;
  }

  #results(reading: FitReading) {
    const { matrix, parts, notes } = reading;
    const chosen = {
      mouthpiece: Math.min(this.chosen.mouthpiece, parts.mouthpieces.length - 1),
      instrument: Math.min(this.chosen.instrument, parts.instruments.length - 1),
    };
    const choose = ({ detail }: CustomEvent<Pair>) => {
      this.chosen = detail;
      this.refused = null;
    };
    const [mouthpiece, instrument] = [
      parts.mouthpieces[chosen.mouthpiece],
      parts.instruments[chosen.instrument],
    ];
    return html`
      <section>
        <div class="head apart over">
          <h2>Predicted gaps</h2>
          <div class="actions controls">
            <button type="button" data-testid="save-matrix" @click=${() => saveTableFile(fitMatrixCsv(matrix), "fit.csv", this.page.store)}>
              ${icon("save")}Save CSV
            </button>
          </div>
        </div>
        <annulus-fit-matrix .matrix=${matrix} .chosen=${chosen} .unit=${notes.unit} @choose=${choose}></annulus-fit-matrix>
      </section>
      <section class="pair">
        <annulus-pair
          .cell=${matrix.cells[chosen.mouthpiece][chosen.instrument]}
          .mouthpiece=${mouthpiece}
          .instrument=${instrument}
          .unit=${notes.unit}
          .unread=${unreadWords(reading, [mouthpiece, instrument])}
          .refused=${this.refused?.of === reading ? this.refused.text : ""}
          .use=${() => this.#use(reading, chosen)}
        ></annulus-pair>
      </section>
      <section>
        <annulus-fit-spread .matrix=${matrix} .chosen=${chosen} .unit=${notes.unit} @choose=${choose}></annulus-fit-spread>
      </section>
    `;
  }

  #own(kind: PartKind): AnyPart {
    return partsOfSetup(this.page.store.parts.document.setup)[partTables[kind].one];
  }

  readonly #beginWithSetup = (): void => {
    const { unit } = this.page.store.parts.view;
    this.#form.write({
      mouthpieces: [typedPart(this.#own("mouthpieces"), unit)],
      instruments: [typedPart(this.#own("instruments"), unit)],
    });
  };

  readonly #beginWithDemo = (): void => {
    const { unit } = this.page.store.parts.view;
    const demo = ({ read, demoCsv, kind }: (typeof partTables)[PartKind]) =>
      read(demoCsv, `the demo's ${kind}`).map((part) => typedPart(part, unit));
    this.#form.write({
      mouthpieces: demo(partTables.mouthpieces),
      instruments: demo(partTables.instruments),
    });
    this.page.store.say("note", "Invented parts: none of these mouthpieces and instruments exists.");
  };

  /** The pair's dimensions, its insertion and its gap: one undo step. */
  #use(reading: FitReading, { mouthpiece: m, instrument: i }: Pair): void {
    const { store } = this.page;
    const { parts: state } = store;
    const { fit, mouthpiece, instrument } = reading.matrix.cells[m][i];
    if (!fit) return;
    const taken = withPair(
      state.document.setup,
      reading.parts.mouthpieces[m],
      reading.parts.instruments[i],
      fit,
    );
    if ("problem" in taken) {
      this.refused = { text: `This pair cannot be an instrument. ${taken.problem}`, of: reading };
      return;
    }
    store.setSetup(taken.setup, { commit: false });
    store.setGap(gapMm(taken.setup));
    const gap = bothUnits(gapMm(taken.setup), reading.notes.unit);
    store.say(
      "note",
      `${mouthpiece} in ${instrument} is in the setup now: gap ${gap}, predicted and not measured. Undo brings back what was there.`,
    );
  }
}

/** What is wrong with the cells of some parts. */
const unreadWords = (
  { mouthpieces, instruments }: FitReading,
  parts: readonly AnyPart[],
): readonly string[] =>
  [...mouthpieces, ...instruments].flatMap(({ part, problems }) =>
    part && parts.includes(part) ? Object.values(problems).map((problem) => `${part.name}: ${problem}`) : [],
  );
