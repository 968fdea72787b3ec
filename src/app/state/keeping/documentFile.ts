/** A whole document as JSON, for what the browser keeps and for links: the setup in its file's form, both gaps, the notes. */
import { DOCUMENT_FORMAT, DOCUMENT_VERSION } from "../../../record/migrateDocument.ts";
import { writeSetup } from "../../../setup/file/writeSetup.ts";
import { NO_NOTES } from "../notes/notes.ts";
import type { Document } from "../state.ts";

export const writeDocument = ({
  setup,
  gapMm,
  referenceGapMm,
  breathLitresPerMinute,
  notes,
}: Document): object => ({
  format: DOCUMENT_FORMAT,
  version: DOCUMENT_VERSION,
  setup: writeSetup(setup),
  gapMm,
  referenceGapMm,
  ...(breathLitresPerMinute !== undefined && { breathLitresPerMinute }),
  ...(notes !== NO_NOTES && { notes }),
});
