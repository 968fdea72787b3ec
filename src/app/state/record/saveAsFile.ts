import type { JobHead, JobTexts } from "../../../record/job.ts";

/** Hands a document over as a file of one job (`jobFile.ts`), whose writer no first curve waits for. */
export async function saveAsFile(document: unknown, head: JobTexts & Partial<JobHead>): Promise<void> {
  const { downloadAsJob } = await import("./jobFile.ts");
  downloadAsJob(document, head);
}
