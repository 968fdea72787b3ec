/** The page's state and everything that changes it. */

import { nearestGapMm } from "../../setup/gapLimits.ts";
import { gapMm, type Setup } from "../../setup/setup.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";
import { NO_NOTES, type Notes, notesForAnother } from "./notes/notes.ts";
import { finishedTrials, withFinished } from "./notes/trial.ts";
import { Observable } from "./observable.ts";
import { shared } from "./shared.ts";
import { type Document, FIRST_VIEW, type Message, type State, type View } from "./state.ts";

const UNDO_LIMIT = 200;

/** `commit: false` while a hand is still moving or typing; all of it until the next committed change is one undo step. */
export interface ChangeOptions {
  readonly commit?: boolean;
}

/** A setup as it was opened: the shank where the file has it, compared with itself. */
export function documentOf(setup: Setup, notes = NO_NOTES): Document {
  const own = withoutRoundingNoise(gapMm(setup));
  return { setup, gapMm: own, referenceGapMm: own, notes };
}

/** A tenth of an inch: the change of gap the trade talks about. */
const TENTH_MM = 2.54;

/** On a first visit the shank stands a tenth of an inch further out than in the file, so that there is something to compare. */
export function firstVisit(setup: Setup): Document {
  const opened = documentOf(setup);
  return { ...opened, gapMm: nearestGapMm(setup, opened.gapMm + TENTH_MM) };
}

export class Store extends Observable<State> {
  #past: readonly Document[] = [];
  #future: readonly Document[] = [];
  /** The document as it was before the gesture that is under way. */
  #before: Document | null = null;
  /** With which opening a document came here: what is in no job is of the same work within one of them. */
  readonly #openings = new WeakMap<Document, number>();
  #opened = 0;

  constructor(document: Document, view: View = FIRST_VIEW) {
    super(
      { document, view, canUndo: false, canRedo: false, message: null },
      { document: { notes: {} }, view: {} },
    );
    this.#openings.set(document, this.#opened);
  }

  get state(): State {
    return this.value;
  }

  /** Moves the shank. A gap the receiver cannot have becomes the nearest it can; what is not a number changes nothing. */
  setGap(toMm: number, options?: ChangeOptions): void {
    const { document } = this.state;
    const next = Number.isFinite(toMm) ? nearestGapMm(document.setup, toMm) : document.gapMm;
    this.#edit(next === document.gapMm ? document : { ...document, gapMm: next }, options);
  }

  /** Chooses what the gap is compared with, within the same limits. */
  setReference(toMm: number, options?: ChangeOptions): void {
    const { document } = this.state;
    const next = Number.isFinite(toMm) ? nearestGapMm(document.setup, toMm) : document.referenceGapMm;
    this.#edit(next === document.referenceGapMm ? document : { ...document, referenceGapMm: next }, options);
  }

  /** Blows it, for who explores it; 0 L/min is still air, which a document says nothing of. */
  setBreath(litresPerMinute: number, options?: ChangeOptions): void {
    const { breathLitresPerMinute, ...still } = this.state.document;
    const blown = litresPerMinute > 0 ? { ...still, breathLitresPerMinute: litresPerMinute } : still;
    this.#edit((breathLitresPerMinute ?? 0) === litresPerMinute ? this.state.document : blown, options);
  }

  /**
   * The same instrument, altered. The gaps stay where the receiver allows them; only a setup whose insertion or receiver
   * depth was itself altered brings its own gap, and what was compared with the gap it had is compared with the new one.
   */
  setSetup(setup: Setup, options?: ChangeOptions): void {
    const { document } = this.state;
    const { setup: old } = document;
    const moved =
      setup.mouthpiece.insertionMm !== old.mouthpiece.insertionMm ||
      setup.receiver.depthMm !== old.receiver.depthMm;
    this.#edit(
      {
        ...document,
        setup,
        gapMm: nearestGapMm(setup, moved ? gapMm(setup) : document.gapMm),
        referenceGapMm: nearestGapMm(
          setup,
          document.referenceGapMm === withoutRoundingNoise(gapMm(old))
            ? gapMm(setup)
            : document.referenceGapMm,
        ),
      },
      options,
    );
  }

  /** Writes down one task's notes. */
  setNotes<Part extends keyof Notes>(part: Part, written: Notes[Part], options?: ChangeOptions): void {
    const { document } = this.state;
    this.#edit({ ...document, notes: { ...document.notes, [part]: written } }, options);
  }

  /** Another instrument, or a whole document from a link; undo brings back the one before. */
  open(opened: Setup | Document): void {
    const { notes } = this.state.document;
    const document = "setup" in opened ? opened : documentOf(opened, notesForAnother(notes));
    this.#openings.set(document, ++this.#opened);
    this.#edit(document, {});
  }

  /**
   * What is open belongs to another job from now on, or to none, and so do the steps that led here within the one it
   * belonged to: undo stays within the job.
   */
  belongTo(job: string | null): void {
    const { document: open } = this.state;
    const moved = (document: Document): Document => {
      if (document.job !== open.job) return document;
      const { job: _, ...rest } = document;
      return this.#asOpened(document, job === null ? rest : { ...rest, job });
    };
    this.#past = this.#past.map(moved);
    this.#future = this.#future.map(moved);
    if (this.#before) this.#before = moved(this.#before);
    this.#show(moved(open));
  }

  /** What another tab has made of the same job. The steps from before would undo that tab's work, so they are given up. */
  follow(document: Document): void {
    this.#openings.set(document, ++this.#opened);
    this.#past = [];
    this.#future = [];
    this.#before = null;
    this.#show(document);
  }

  /** Ends a gesture by going back to where it began. */
  cancel(): void {
    const before = this.#before;
    this.#before = null;
    if (before) this.#show(before);
  }

  undo(): void {
    this.#endGesture();
    const previous = this.#past.at(-1);
    if (!previous) return;
    this.#past = this.#past.slice(0, -1);
    this.#future = [...this.#future, this.state.document];
    this.#show(previous);
  }

  redo(): void {
    this.#endGesture();
    const next = this.#future.at(-1);
    if (!next) return;
    this.#future = this.#future.slice(0, -1);
    this.#past = [...this.#past, this.state.document];
    this.#show(next);
  }

  setView(part: Partial<View>): void {
    this.change({ ...this.state, view: { ...this.state.view, ...part } });
  }

  say(kind: Message["kind"], text: string, offer?: Message["offer"]): void {
    this.change({ ...this.state, message: { kind, text, ...(offer && { offer }) } });
  }

  clearMessage(): void {
    if (this.state.message) this.change({ ...this.state, message: null });
  }

  #edit(document: Document, { commit = true }: ChangeOptions = {}): void {
    this.#before ??= this.state.document;
    this.#asOpened(this.state.document, document);
    if (commit) this.#endGesture(document);
    this.#show(document);
  }

  /** One undo step from where the gesture began to where it ended, if it led anywhere. */
  #endGesture(document = this.state.document): void {
    const before = this.#before;
    this.#before = null;
    if (!before || sameDocument(before, document)) return;
    this.#past = this.#withFinished([...this.#past, before], document).slice(-UNDO_LIMIT);
    this.#future = [];
  }

  /** A document made from another came with the same opening, unless it was opened itself. */
  #asOpened(from: Document, document: Document): Document {
    if (!this.#openings.has(document)) this.#openings.set(document, this.#openings.get(from)!);
    return document;
  }

  /**
   * The steps back, none of which un-finishes a trial: in those of the same work every trial finished by now is finished,
   * and those that differ in nothing else any more are gone.
   */
  #withFinished(past: readonly Document[], now: Document): readonly Document[] {
    const finished = finishedTrials(now.notes.trial);
    if (finished.length === 0) return past;
    const isSameWork = (document: Document) =>
      document.job === now.job &&
      (now.job !== undefined || this.#openings.get(document) === this.#openings.get(now));
    const carried = past.map((document) => {
      const trial = isSameWork(document)
        ? withFinished(document.notes.trial, finished)
        : document.notes.trial;
      return trial === document.notes.trial
        ? document
        : this.#asOpened(document, { ...document, notes: { ...document.notes, trial } });
    });
    if (carried.every((document, i) => document === past[i])) return past;
    return carried.filter((document, i) => !sameDocument(document, carried[i + 1] ?? now));
  }

  #show(document: Document): void {
    const moving = this.#before !== null && !sameDocument(this.#before, document);
    const canUndo = moving || this.#past.length > 0;
    const canRedo = !moving && this.#future.length > 0;
    const { state } = this;
    if (document === state.document && canUndo === state.canUndo && canRedo === state.canRedo) return;
    this.change({ ...state, document, canUndo, canRedo });
  }
}

/** What says the same is the same: opening what is open already is no step. */
const sameDocument = (a: Document, b: Document): boolean => shared(a, b) === a;
