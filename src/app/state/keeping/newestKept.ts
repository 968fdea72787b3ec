/**
 * What the page begins with: the newest there is, wherever it is kept. A job that has gone on in the record since is shown
 * as the record has it, from the first drawing on.
 */

import { sameRevision } from "../../../record/revision.ts";
import { fetchArithmetic, isJsonReadable } from "../../form/arithmetic.ts";
import type { JobMark } from "../record/jobMark.ts";
import { keptJob } from "../record/keptJob.ts";
import type { Document } from "../state.ts";
import { workCopied } from "./copyFiles.ts";
import type { Restored } from "./restored.ts";
import { lastStamp, newestFirst, type Shelves, shelved } from "./shelves.ts";
import type { Working, WorkingStore } from "./workingStore.ts";

/** A database that does not answer must not keep the page from opening. */
const PATIENCE_MS = 4000;

/** On a first visit: there is nothing to read, nor what it takes to read it. */
const NOTHING: Restored = { document: null, mark: null, view: null, broken: null };

/** What reads what was kept. */
export async function fetchReader() {
  const [{ restore }, { readDocument }] = await Promise.all([
    import("./restored.ts"),
    import("./readDocument.ts"),
  ]);
  return { restore, readDocument };
}

export async function newestKept(
  shelves: Shelves,
  store: WorkingStore,
): Promise<Restored & { readonly since: number }> {
  // it comes while the databases are still asked
  if (shelved(shelves).length > 0) fetchReader().catch(() => {});
  const [kept, copied] = await Promise.all([
    inTime<Working[]>(store.all(), []),
    inTime<Working[]>(workCopied(), []),
  ]);
  const workings = [...kept, ...copied];
  const texts = [...shelved(shelves), ...workings.map(({ text }) => text)];
  if (texts.length === 0) return { ...NOTHING, since: 0 };
  // where it cannot be fetched, reading says what cannot be read
  if (!texts.every(isJsonReadable)) await fetchArithmetic().catch(() => {});
  const since = lastStamp(shelves, workings);
  const reader = await fetchReader().catch(() => null);
  if (!reader) {
    const [text] = newestFirst(shelves, workings);
    return { ...NOTHING, broken: { text, reason: "part of this page could not be loaded" }, since };
  }
  const restored = reader.restore(shelves, workings);
  return { ...restored, ...(await asInRecord(restored, reader.readDocument)), since };
}

/** The record's, where it has gone on and the tab has not. */
async function asInRecord(
  { mark }: Restored,
  readDocument: (json: unknown) => Document,
): Promise<{ document?: Document; mark?: JobMark }> {
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
