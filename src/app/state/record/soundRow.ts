/** Whether a record of the database is one that this version of the page wrote: a list must not trip over one that is not. */
import { JOB_VERSION } from "../../../record/job.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import type { Row } from "./database.ts";

const WHY_UNSOUND = "damaged";
const WHY_LATER = "kept by a later version of this page; load the page again to get it";

/** Why a record is not listed, in words. */
export const whyUnsound = (row: Row): string => (isLaterRow(row) ? WHY_LATER : WHY_UNSOUND);

/** Kept by a later version of the page: sound, but not for this one. */
export const isLaterRow = ({ version }: Row): boolean =>
  typeof version === "number" && (version as number) > JOB_VERSION;

const TEXTS = ["id", "title", "player", "instrument", "mouthpiece", "created", "changed"] as const;

export const isSound = (row: Row): boolean =>
  row.version === JOB_VERSION &&
  TEXTS.every((name) => typeof row[name] === "string") &&
  (row.status === "open" || row.status === "archived") &&
  (row.deleted === null || typeof row.deleted === "string") &&
  isRecord(row.revision) &&
  Array.isArray(row.holds);
