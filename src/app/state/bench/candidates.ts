/** What is compared: the open setup first, then every candidate as it was taken in; and how one is taken in, opened, removed. */
import { deepFreeze } from "../../../setup/deepFreeze.ts";
import { readSetup } from "../../../setup/file/readSetup.ts";
import { writeSetup } from "../../../setup/file/writeSetup.ts";
import { nearestGapMm } from "../../../setup/gapLimits.ts";
import { SetupError } from "../../../setup/problem.ts";
import { gapMm as ownGapMm, type Setup } from "../../../setup/setup.ts";
import { withGap } from "../../../setup/withGap.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { type GapKind, gapKind } from "../../../words/gapKinds.ts";
import { type CandidateNotes, type CompareNotes, compareForm, MOST_CANDIDATES } from "../notes/compare.ts";
import { notesForAnother } from "../notes/notes.ts";
import type { Document } from "../state.ts";
import { documentOf, type Store } from "../store.ts";
import type { NamedGap } from "./namedGaps.ts";

export interface Candidate {
  /** Its place in the list, from 1. */
  readonly number: number;
  readonly name: string;
  readonly origin: string;
  readonly setup: Setup;
  readonly gapMm: number;
  readonly gapIs: GapKind;
}

/** One whose setup cannot be read or used, with the reason. */
export interface BrokenCandidate extends Pick<Candidate, "number" | "name" | "origin"> {
  readonly problem: string;
}

export type Listed = Candidate | BrokenCandidate;
export const isSound = (listed: Listed): listed is Candidate => "setup" in listed;

const OPEN = "the open setup";
type Read = { readonly setup: Setup } | { readonly problem: string };
/** A file's setup is read once: what is the same object is the same to charts and model. */
const read = new WeakMap<object, Read>();

/** @param common the one gap that all are compared at; null: each at its own */
export function listed(
  { setup, notes }: Pick<Document, "setup" | "notes">,
  common: NamedGap | null = null,
): readonly Listed[] {
  const at = (one: Setup): Pick<Candidate, "gapMm" | "gapIs"> => {
    const gapMm = common?.gapMm ?? withoutRoundingNoise(ownGapMm(one));
    return { gapMm, gapIs: common?.is ?? gapKind(one, gapMm) };
  };
  const taken = (about: Pick<Candidate, "number" | "name" | "origin">, one: Setup): Listed => {
    const problem = common && gapProblem(one, common.gapMm);
    return problem ? { ...about, problem } : { ...about, setup: one, ...at(one) };
  };
  return [
    // the gaps of a job are gaps of the open setup
    { number: 1, name: setup.name, origin: OPEN, setup, ...at(setup) },
    ...notes.compare.candidates.map(({ name, origin, file }, i): Listed => {
      const about = { number: i + 2, name: name.trim() || `candidate ${i + 2}`, origin };
      const found = setupOf(file);
      return "problem" in found ? { ...about, ...found } : taken(about, found.setup);
    }),
  ];
}

function setupOf(file: object): Read {
  const known = read.get(file);
  if (known) return known;
  const found = inWords(() => ({ setup: deepFreeze(readSetup(file)) }));
  read.set(file, found);
  return found;
}

const gapProblem = (setup: Setup, gapMm: number): string | null => {
  const found = inWords(() => ({ setup: withGap(setup, gapMm) }));
  return "problem" in found ? found.problem : null;
};

function inWords(make: () => { readonly setup: Setup }): Read {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    return { problem: error.message };
  }
}

export const candidateNotes = (name: string, origin: string, setup: Setup): CandidateNotes => ({
  name,
  origin,
  file: writeSetup({ ...setup, name }) as CandidateNotes["file"],
});

/**
 * Puts candidates at the end of the list, and writes down what else changes with it; one undo step. What does not find room
 * is said. @returns whether all were taken
 */
export function takeIn(
  store: Store,
  taken: readonly CandidateNotes[],
  written: Partial<CompareNotes> = {},
): boolean {
  const { document, view } = store.state;
  const notes = compareForm.shownIn(document.notes.compare, view.unit);
  const room = MOST_CANDIDATES - 1 - notes.candidates.length;
  if (taken.length > room) {
    store.say(
      "error",
      `There is room for ${Math.max(0, room)} more: ${MOST_CANDIDATES} are as many as can be told apart. Remove one first.`,
    );
    return false;
  }
  store.setNotes("compare", { ...notes, ...written, candidates: [...notes.candidates, ...taken] });
  return true;
}

/** Puts another setup in the place of a candidate's own; one undo step. */
export function changeCandidate(store: Store, { number }: Candidate, setup: Setup): void {
  if (number === 1) {
    store.setSetup(setup);
    return;
  }
  const { document, view } = store.state;
  const notes = compareForm.shownIn(document.notes.compare, view.unit);
  const { name, origin } = notes.candidates[number - 2];
  const file = writeSetup(setup) as CandidateNotes["file"];
  store.setNotes("compare", {
    ...notes,
    candidates: notes.candidates.with(number - 2, { name, origin, file }),
  });
}

/** Without the one at this place; whoever was the reference, or what a design shall be like, stays it. */
export function withoutCandidate(notes: CompareNotes, number: number): CompareNotes {
  const { candidates, reference, design } = notes;
  const at = number - 1;
  const moved = (place: number) => (at === place ? null : at < place ? place - 1 : place);
  return {
    ...notes,
    candidates: candidates.toSpliced(number - 2, 1),
    reference: moved(reference) ?? 0,
    design: { ...design, like: design.like === null ? null : moved(design.like) },
  };
}

/**
 * The document with this candidate open, as its file has it, and the setup that was open in its place; where it was compared
 * at another gap, that is what is looked at. Readings at the bench stay where mouthpiece and receiver are the same.
 */
export function withOpened(document: Document, { number, name, setup, gapMm }: Candidate): Document {
  const { notes } = document;
  const before = candidateNotes(document.setup.name, "the setup that was open before", document.setup);
  const compare = { ...notes.compare, candidates: notes.compare.candidates.with(number - 2, before) };
  const isSameBench =
    JSON.stringify([setup.mouthpiece, setup.receiver]) ===
    JSON.stringify([document.setup.mouthpiece, document.setup.receiver]);
  const opened = setup.name === name ? setup : { ...setup, name };
  const chosen = {
    ...documentOf(opened, { ...(isSameBench ? notes : notesForAnother(notes)), compare }),
    gapMm: nearestGapMm(opened, gapMm),
  };
  // the one before stays among the candidates: it is the same job
  return document.job === undefined ? chosen : { ...chosen, job: document.job };
}
