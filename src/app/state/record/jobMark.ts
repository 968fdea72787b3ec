/** Where a document that the tab keeps stood in the record of jobs: written beside it, so that after a crash it is known which is the newer. */
import type { Revision } from "../../../record/revision.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";

export interface JobMark {
  readonly id: string;
  /** The job's in the record when the two last agreed. */
  readonly revision: Revision;
  /** The tab has gone on since. */
  readonly unsaved: boolean;
  /** The fingerprint of what was on its way into the record: found there, it is this tab's own. */
  readonly writing?: string;
}

/** null for what is no mark. */
export function readJobMark(json: unknown): JobMark | null {
  if (!isRecord(json) || typeof json.id !== "string" || !isRecord(json.revision)) return null;
  const writing = typeof json.writing === "string" ? { writing: json.writing } : {};
  const counts = Object.values(json.revision);
  if (!counts.every((count) => Number.isInteger(count))) return null;
  return { id: json.id, revision: json.revision as Revision, unsaved: json.unsaved === true, ...writing };
}
