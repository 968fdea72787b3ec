/** A job as the second copy holds it. */
import type { Job } from "./job.ts";
import { readJob } from "./readJob.ts";
import { RecordError } from "./recordError.ts";

export interface CopiedHead {
  /** Tells one state of the job from any other. */
  readonly tag: string;
  /** When it was deleted, ISO 8601; null: it is not. */
  readonly deleted: string | null;
}

export interface CopiedJob extends CopiedHead {
  /** As it was, of whatever version. */
  readonly job: unknown;
}

/** The jobs of a copy that are not deleted and can be read, in the present format. */
export function jobsCopied(values: Iterable<unknown>, at: string): Job[] {
  const jobs: Job[] = [];
  for (const value of values) {
    const { job, deleted } = value as CopiedJob;
    if (deleted !== null) continue;
    try {
      jobs.push(readJob(job, at));
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
    }
  }
  return jobs;
}
