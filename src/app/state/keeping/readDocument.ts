/** A document from what `documentFile.ts` wrote, today or long ago. A first visit has none, and does not wait for this. */
import { DOCUMENT_FORMAT, DOCUMENT_VERSION, migrateDocument } from "../../../record/migrateDocument.ts";
import { RecordError } from "../../../record/recordError.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { readKeptSetup } from "../../../setup/file/readSetup.ts";
import { nearestGapMm } from "../../../setup/gapLimits.ts";
import { SetupError } from "../../../setup/problem.ts";
import { BREATH_LIMITS } from "../breath.ts";
import { NO_NOTES, readNotes } from "../notes/notes.ts";
import type { Document } from "../state.ts";
import { documentOf } from "../store.ts";

/**
 * Also of a setup that by now is refused as no instrument: what was kept still opens, and what is wrong with it is said
 * (`flawsOf`).
 *
 * @throws SetupError in words, whatever `json` is
 */
export function readDocument(json: unknown): Document {
  const refuse = (path: string, value: unknown, message: string) =>
    new SetupError([{ path, value, message }]);
  if (!isRecord(json)) throw refuse("", json, "not a document of this program");
  const { format, version, setup: file, gapMm, referenceGapMm, notes, ...rest } = migrated(json, refuse);
  if (format !== DOCUMENT_FORMAT)
    throw refuse("format", format, `not a document of this program; give "${DOCUMENT_FORMAT}"`);
  if (version !== DOCUMENT_VERSION)
    throw refuse(
      "version",
      version,
      `made by another version of this program; this one reads 1 to ${DOCUMENT_VERSION}`,
    );
  const setup = readKeptSetup(file);
  const own = documentOf(setup);
  const gap = (path: string, value: unknown, fallback: number): number => {
    if (value === undefined) return fallback;
    if (typeof value !== "number" || !Number.isFinite(value))
      throw refuse(path, value, "not a length; give mm");
    return nearestGapMm(setup, value);
  };
  return {
    setup,
    gapMm: gap("gapMm", gapMm, own.gapMm),
    referenceGapMm: gap("referenceGapMm", referenceGapMm, own.referenceGapMm),
    ...breathIn(rest.breathLitresPerMinute, refuse),
    notes: notes === undefined ? NO_NOTES : readNotes(notes),
  };
}

/** Still air where nothing is said, as before there was a breath. */
function breathIn(
  value: unknown,
  refuse: (path: string, value: unknown, message: string) => SetupError,
): Pick<Document, "breathLitresPerMinute"> {
  if (value === undefined || value === 0) return {};
  if (typeof value !== "number" || !(value > 0 && value <= BREATH_LIMITS.most))
    throw refuse("breathLitresPerMinute", value, `no breath; give 0 to ${BREATH_LIMITS.most} L/min`);
  return { breathLitresPerMinute: value };
}

function migrated(
  json: Readonly<Record<string, unknown>>,
  refuse: (path: string, value: unknown, message: string) => SetupError,
): Readonly<Record<string, unknown>> {
  try {
    return migrateDocument(json);
  } catch (error) {
    throw error instanceof RecordError ? refuse("version", json.version, error.message) : error;
  }
}
