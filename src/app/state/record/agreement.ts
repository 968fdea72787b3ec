/** How what a tab has of each job stands to what the record has of it. */
import { fingerprint } from "../../../record/canonical.ts";
import { includesRevision, type Revision, sameRevision } from "../../../record/revision.ts";
import type { Document } from "../state.ts";
import type { JobMark } from "./jobMark.ts";

/** What the record had of a job when this tab and it last agreed. */
export interface Agreed {
  readonly revision: Revision;
  /** As it stands in the record; null: not known any more. */
  readonly text: string | null;
  /** What this tab had; null: it had gone on from it. */
  readonly document: Document | null;
  /** The fingerprint of what this tab began to write after that. */
  readonly writing?: string;
}

/** `same`: neither has gone on; `record`, `tab`: only that one has; `both`. */
export type Standing = "same" | "record" | "tab" | "both";

export class Agreements {
  readonly #byJob = new Map<string, Agreed>();

  of({ job }: Document): Agreed | undefined {
    return job === undefined ? undefined : this.#byJob.get(job);
  }

  set(id: string, agreed: Agreed): void {
    this.#byJob.set(id, agreed);
  }

  forget(id: string): void {
    this.#byJob.delete(id);
  }

  /** Whether a job's document has gone on since. */
  isUnsaved(document: Document): boolean {
    const agreed = this.of(document);
    return agreed !== undefined && agreed.document !== document;
  }

  mark(document: Document): JobMark | null {
    const agreed = this.of(document);
    if (!agreed) return null;
    const { revision, writing } = agreed;
    const isWriting = writing === undefined ? {} : { writing };
    return { id: document.job!, revision, unsaved: agreed.document !== document, ...isWriting };
  }

  /**
   * @param ownText the document's, as it would stand in the record
   * @param revision of the record now
   * @param text of the record now
   */
  standing(document: Document, ownText: string, revision: Revision, text: string): Standing {
    const agreed = this.of(document);
    // a title or a status may have been changed meanwhile, which is no matter of the document's
    const recordHasGoneOn = agreed?.text !== text && !(agreed && sameRevision(agreed.revision, revision));
    if (ownText === text) return "same";
    // a record that was lost and came back from its copy may be older than what this tab has seen of it
    if (agreed && !sameRevision(agreed.revision, revision) && includesRevision(agreed.revision, revision))
      return "tab";
    // the browser's end came between this tab's write and its note of it
    if (agreed?.writing !== undefined && agreed.writing === fingerprint(JSON.parse(text)))
      return this.isUnsaved(document) ? "tab" : "record";
    if (!this.isUnsaved(document)) return agreed?.text === text ? "same" : "record";
    return recordHasGoneOn ? "both" : "tab";
  }
}
