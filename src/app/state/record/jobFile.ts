/** One job as a file of its own, for when the browser keeps nothing: a backup of one. */
import { backupFileName, writeBackup } from "../../../record/backup.ts";
import {
  JOB_FORMAT,
  JOB_VERSION,
  type Job,
  type JobHead,
  type JobTexts,
  newId,
} from "../../../record/job.ts";
import { download } from "../../shell/download.ts";

/** @param head of the job it belongs to, or what one would be called */
export function downloadAsJob(document: unknown, head: JobTexts & Partial<JobHead>): void {
  const at = new Date().toISOString();
  const { title, player, instrument, mouthpiece, id = newId(), status = "open", created = at } = head;
  const job: Job = {
    format: JOB_FORMAT,
    version: JOB_VERSION,
    id,
    title,
    player,
    instrument,
    mouthpiece,
    status,
    created,
    changed: at,
    // gone on from the record's, where no browser's count tells of it
    revision: { ...head.revision, [newId()]: 1 },
    document,
  };
  download(writeBackup([job], at), backupFileName(at).replace("backup", "job"));
}
