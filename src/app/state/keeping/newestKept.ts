/**
 * What the page begins with: the newest there is, wherever it is kept. A job that has gone on in the record since is shown
 * as the record has it, from the first drawing on.
 */

import { sameRevision } from "../../../record/revision.ts";
import { fetchArithmetic, isJsonReadable } from "../../form/arithmetic.ts";
import type { JobMark } from "../record/jobMark.ts";
import { keptJob } from "../record/keptJob.ts";
import type { Document } from "../state.ts";
import { lastStamp, type Restored, restore, type Shelves, shelved } from "./autosave.ts";
import { workCopied } from "./copyFiles.ts";
import { readDocument } from "./documentFile.ts";
import type { Working, WorkingStore } from "./workingStore.ts";

/** A database that does not answer must not keep the page from opening. */
const PATIENCE_MS = 4000;

export async function newestKept(
  shelves: Shelves,
  store: WorkingStore,
): Promise<Restored & { readonly since: number }> {
  const [kept, copied] = await Promise.all([
    inTime<Working[]>(store.all(), []),
    inTime<Working[]>(workCopied(), []),
  ]);
  const workings = [...kept, ...copied];
  const texts = [...shelved(shelves), ...workings.map(({ text }) => text)];
  // where it cannot be fetched, reading says what cannot be read
  if (!texts.every(isJsonReadable)) await fetchArithmetic().catch(() => {});
  const restored = restore(shelves, workings);
  return { ...restored, ...(await asInRecord(restored)), since: lastStamp(shelves, workings) };
}

/** The record's, where it has gone on and the tab has not. */
async function asInRecord({ mark }: Restored): Promise<{ document?: Document; mark?: JobMark }> {
  if (!mark || mark.unsaved) return {};
  const kept = await inTime(keptJob(mark.id), null);
  if (!kept || sameRevision(kept.revision, mark.revision)) return {};
  if (!isJsonReadable(JSON.stringify(kept.document))) await fetchArithmetic().catch(() => {});
  try {
    return {
      document: { ...readDocument(kept.document), job: mark.id },
      mark: { id: mark.id, revision: kept.revision, unsaved: false },
    };
  } catch {
    // the record says so where it is opened
    return {};
  }
}

const inTime = <T>(answer: Promise<T>, otherwise: T): Promise<T> =>
  Promise.race([
    answer.catch(() => otherwise),
    new Promise<T>((done) => setTimeout(() => done(otherwise), PATIENCE_MS)),
  ]);
