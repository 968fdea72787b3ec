/**
 * Jobs as earlier versions of the page kept them, brought to the present format, one step a version:
 *
 *     1  a bare document ("annulus-document"), or the same beside a view as the page's autosave wrote it
 *     2  a job ("annulus-job") with one trial
 *     3  a job with any number of trials
 *     4  a job with takes of its player
 *     5  a job with sweeps of its instrument
 */
import { isRecord } from "../setup/file/jsonRecord.ts";
import { fingerprint } from "./canonical.ts";
import { JOB_FORMAT, JOB_VERSION, LONGEST_TEXT } from "./job.ts";
import { DOCUMENT_FORMAT, MADE_LATER, migrateDocument } from "./migrateDocument.ts";
import { RecordError } from "./recordError.ts";

const UNNAMED = "Kept from an earlier visit";

/** From a version to the next; `at` is when, for what the earlier version did not note. */
const STEPS: Readonly<Record<number, (kept: Fields, at: string) => Fields>> = {
  1: fromDocument,
  2: inVersion(3),
  3: inVersion(4),
  4: inVersion(5),
};

type Fields = Readonly<Record<string, unknown>>;

/**
 * The same in the present format; whether each of its fields can be taken is for `readJob` to say.
 *
 * @throws RecordError for what no version of this program has written, or a later one
 */
export function migrate(json: unknown, at: string): Fields {
  if (isLater(json)) throw new RecordError(MADE_LATER);
  let version = versionOf(json);
  let kept = json as Fields;
  for (; version < JOB_VERSION; version++) kept = STEPS[version](kept, at);
  return kept;
}

function versionOf(json: unknown): number {
  if (!isRecord(json)) throw new RecordError("not a job of this program");
  if (documentIn(json)) return 1;
  const { format, version } = json;
  if (format !== JOB_FORMAT)
    throw new RecordError(`not a job of this program: its format is not "${JOB_FORMAT}"`);
  if (typeof version !== "number" || !Number.isInteger(version) || version < 2)
    throw new RecordError("a job without the version of its format");
  return version;
}

function fromDocument(kept: Fields, at: string): Fields {
  const document = documentIn(kept)!;
  const name = isRecord(document.setup) && typeof document.setup.name === "string" ? document.setup.name : "";
  return {
    format: JOB_FORMAT,
    version: 2,
    // nothing named it: what it says does, so that the same one is not taken in twice
    id: fingerprint(document),
    title: name.slice(0, LONGEST_TEXT) || UNNAMED,
    player: "",
    instrument: name.slice(0, LONGEST_TEXT),
    mouthpiece: "",
    status: "open",
    created: at,
    changed: at,
    revision: {},
    document,
  };
}

/** What changed stands in the document, which knows its own steps. */
function inVersion(version: number) {
  return (kept: Fields): Fields => {
    const { document } = kept;
    return { ...kept, version, document: isRecord(document) ? migrateDocument(document) : document };
  };
}

function documentIn(kept: Fields): Fields | null {
  if (kept.format === DOCUMENT_FORMAT) return kept;
  const { document, format } = kept;
  return format === undefined && isRecord(document) && document.format === DOCUMENT_FORMAT ? document : null;
}

/** Whether a later version of the page made a job: it is not broken, this page is old. */
export const isLater = (json: unknown): boolean =>
  isRecord(json) &&
  json.format === JOB_FORMAT &&
  typeof json.version === "number" &&
  json.version > JOB_VERSION;
