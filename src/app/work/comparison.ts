/** The newest comparison that was asked for. */
import type { Compare, ComparedVariant, CompareRequest } from "../../../workers/instrument/compare.ts";
import type { Connection } from "./connection.ts";
import { openCompareWorker } from "./openWorkers.ts";
import { sameToModel } from "./sameToModel.ts";
import { OVERTAKEN_MS, Work } from "./work.ts";
import { WorkerClient } from "./workerClient.ts";

export type CompareQuestion = Omit<CompareRequest, "ticket">;

const REST_MS = 200;

export function comparison(connect: () => Connection<Compare> = openCompareWorker) {
  const client = new WorkerClient({ connect, deafMs: OVERTAKEN_MS });
  return new Work<CompareQuestion, readonly ComparedVariant[]>({
    ask: (question, tell, signal) => {
      const { setup } = question.variants[question.reference ?? 0];
      return client.run("compare", setup, question, (done, of) => tell(done / of), signal);
    },
    isSame,
    restMs: REST_MS,
    release: () => client.close(),
  });
}

/** A new name is no new instrument. */
function isSame(
  { variants: a, ...optionsA }: CompareQuestion,
  { variants: b, ...optionsB }: CompareQuestion,
): boolean {
  return (
    a.length === b.length &&
    a.every(({ setup, gapMm }, i) => gapMm === b[i].gapMm && sameToModel(setup, b[i].setup)) &&
    JSON.stringify(optionsA) === JSON.stringify(optionsB)
  );
}
