/** Whether a record of the database is one that this version of the page wrote: a list must not trip over one that is not. */
import { JOB_VERSION } from "../../../record/job.ts";
import { isRecord } from "../../form/kept.ts";
import type { Row } from "./database.ts";

export const WHY_UNSOUND = "kept by another version of this page, or damaged";

const TEXTS = ["id", "title", "player", "instrument", "mouthpiece", "created", "changed"] as const;

export const isSound = (row: Row): boolean =>
  row.version === JOB_VERSION &&
  TEXTS.every((name) => typeof row[name] === "string") &&
  (row.status === "open" || row.status === "archived") &&
  (row.deleted === null || typeof row.deleted === "string") &&
  isRecord(row.revision) &&
  Array.isArray(row.holds);
