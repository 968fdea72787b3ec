/** A whole document as JSON, for what the browser keeps and for links: the setup in its file's form, both gaps, the notes. */
import { SetupError } from "../../../setup/problem.ts";
import { readSetup } from "../../../setup/readSetup.ts";
import { writeSetup } from "../../../setup/writeSetup.ts";
import { nearestGapMm } from "../gapLimits.ts";
import { NO_NOTES, readNotes } from "../notes/notes.ts";
import type { Document } from "../state.ts";
import { documentOf } from "../store.ts";

const FORMAT = "annulus-document";
const VERSION = 1;

export const writeDocument = ({ setup, gapMm, referenceGapMm, notes }: Document): object => ({
  format: FORMAT,
  version: VERSION,
  setup: writeSetup(setup),
  gapMm,
  referenceGapMm,
  ...(notes !== NO_NOTES && { notes }),
});

/** @throws SetupError in words, whatever `json` is */
export function readDocument(json: unknown): Document {
  const refuse = (path: string, value: unknown, message: string) =>
    new SetupError([{ path, value, message }]);
  if (typeof json !== "object" || json === null) throw refuse("", json, "not a document of this program");
  const { format, version, setup: file, gapMm, referenceGapMm, notes } = json as Record<string, unknown>;
  if (format !== FORMAT) throw refuse("format", format, `not a document of this program; give "${FORMAT}"`);
  if (version !== VERSION)
    throw refuse("version", version, `made by another version of this program; this one reads ${VERSION}`);
  const setup = readSetup(file);
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
    notes: notes === undefined ? NO_NOTES : readNotes(notes),
  };
}
