/** From JSON of any version to a `Job`, by the JSON Schema in `shared`; what is wrong is said in words, not in keywords. */
import { type Schema, Validator } from "@cfworker/json-schema";
import backupSchema from "../../shared/annulus-backup.schema.json" with { type: "json" };
import type { Job } from "./job.ts";
import { migrate } from "./migrate.ts";
import { MADE_LATER } from "./migrateDocument.ts";
import { RecordError } from "./recordError.ts";

const { $defs, ...backup } = backupSchema;
// copies, because the validator leaves marks in its schema
const jobSchema = structuredClone({ ...$defs.job, $defs }) as unknown as Schema;
const envelopeSchema = structuredClone({ ...backup, $defs }) as unknown as Schema;
const jobs = new Validator(jobSchema, "2020-12");
const envelopes = new Validator(envelopeSchema, "2020-12");

/** Of the format of a backup. */
const LATEST = 2;

export interface BackupEnvelope {
  readonly version: 1 | 2;
  readonly made: string;
  /** Of `made` and the jobs' checksums; in the first version there was none. */
  readonly sha256?: string;
  readonly jobs: readonly unknown[];
}

/**
 * A job of any version, in the present format.
 *
 * @param at when, for what an earlier version did not note
 * @throws RecordError
 */
export function readJob(json: unknown, at: string): Job {
  const job = migrate(json, at);
  check(jobs, jobSchema, job);
  return job as unknown as Job;
}

/**
 * A backup whose jobs are yet to be read, so that one broken job does not take the others with it.
 *
 * @throws RecordError
 */
export function readEnvelope(json: unknown): BackupEnvelope {
  const { version } = json as Readonly<Record<string, unknown>>;
  if (typeof version === "number" && version > LATEST) throw new RecordError(MADE_LATER);
  check(envelopes, envelopeSchema, json);
  return json as BackupEnvelope;
}

function check(validator: Validator, { properties = {}, required }: Schema, json: unknown): void {
  const given = json as Readonly<Record<string, unknown>>;
  const wanted = (key: string) => (properties[key] as Schema).description;
  for (const key of required ?? [])
    if (!Object.hasOwn(given, key)) throw new RecordError(`${key}: missing; give ${wanted(key)}`);
  for (const key of Object.keys(given))
    if (!Object.hasOwn(properties, key)) throw new RecordError(`${shown(key)}: unknown here`);
  for (const { instanceLocation } of validate(validator, json)) {
    const [, key] = instanceLocation.split("/");
    if (key) throw new RecordError(`${key}: not accepted; give ${wanted(key)}`);
  }
}

/** The validator trips over keys of broken Unicode. */
function validate(validator: Validator, json: unknown) {
  try {
    return validator.validate(json).errors;
  } catch {
    throw new RecordError("a key in it is broken text");
  }
}

const shown = (key: string): string => JSON.stringify(key.slice(0, 40)).replace(/\p{Surrogate}/gu, "�");
