/** What is typed and taken in for comparing, written down in the unit shown. */
import {
  type CandidateNotes,
  type CompareNotes,
  compareForm,
  MOST_CANDIDATES,
} from "../../state/notes/compare.ts";
import type { ChangeOptions, Store } from "../../state/store.ts";

export const compareNotes = ({ parts: { document, view } }: Store): CompareNotes =>
  compareForm.shownIn(document.notes.compare, view.unit);

/** Into what is written by now, which may be more than has been drawn. */
export const writeCompare = (store: Store, written: Partial<CompareNotes>, options?: ChangeOptions): void =>
  store.setNotes("compare", { ...compareNotes(store), ...written }, options);

/** Puts candidates at the end of the list; one undo step. What does not find room is said. @returns whether all were taken */
export function takeIn(
  store: Store,
  taken: readonly CandidateNotes[],
  written: Partial<CompareNotes> = {},
): boolean {
  const { candidates } = compareNotes(store);
  const room = MOST_CANDIDATES - 1 - candidates.length;
  if (taken.length > room) {
    store.say(
      "error",
      `There is room for ${Math.max(0, room)} more: ${MOST_CANDIDATES} are as many as can be told apart. Remove one first.`,
    );
    return false;
  }
  writeCompare(store, { ...written, candidates: [...candidates, ...taken] });
  return true;
}
