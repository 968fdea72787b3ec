/** What was kept, read again. A first visit has nothing to read, and does not wait for this. */
import { type JobMark, readJobMark } from "../record/jobMark.ts";
import type { Document, View } from "../state.ts";
import { readDocument } from "./readDocument.ts";
import { newestFirst, type Shelves } from "./shelves.ts";
import { readView } from "./viewFile.ts";
import type { Working } from "./workingStore.ts";

/** What was found at the start. */
export interface Restored {
  readonly document: Document | null;
  /** Where the document stood in the record of jobs; null: it was none. */
  readonly mark: JobMark | null;
  readonly view: View | null;
  /** A kept text that cannot be read, and why: the person's work, to be offered and not thrown away. */
  readonly broken: { readonly text: string; readonly reason: string } | null;
}

/**
 * The newest of the tab's own work if it has any that can be read, else of anybody's.
 *
 * @param workings what the places hold that are written through
 */
export function restore(shelves: Shelves, workings: readonly Working[] = []): Restored {
  let broken: Restored["broken"] = null;
  for (const text of newestFirst(shelves, workings)) {
    try {
      const { document, view, job } = JSON.parse(text) as Record<string, unknown>;
      const mark = readJobMark(job);
      const read = readDocument(document);
      return { document: mark ? { ...read, job: mark.id } : read, mark, view: readView(view), broken };
    } catch (error) {
      broken ??= { text, reason: error instanceof Error ? error.message : String(error) };
    }
  }
  return { document: null, mark: null, view: null, broken };
}
