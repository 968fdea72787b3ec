/**
 * The change between the store's two gaps by drawing instruments, on demand: in a worker of its own, so that the hand on the
 * shank is not slowed, which ends with the work.
 */
import type { MonteCarlo } from "../../study/uncertainty/monteCarlo.ts";
import type { Document } from "../state/state.ts";
import { MODEL } from "./modelWorker.ts";
import { sameToModel } from "./sameToModel.ts";
import { Work } from "./work.ts";
import { inOwnWorker } from "./workerClient.ts";

export interface DrawQuestion extends Pick<Document, "setup" | "gapMm" | "referenceGapMm"> {
  readonly trials: Trials;
}

/** Good for a standard deviation to 5, 2.2 and 1 %. */
export const TRIALS = [200, 1000, 5000] as const;
export type Trials = (typeof TRIALS)[number];

export const draws = () =>
  new Work<DrawQuestion, MonteCarlo>({
    ask: ({ setup, ...request }, tell, signal) =>
      inOwnWorker(MODEL, (client) =>
        client.run("draw", setup, request, (done, of) => tell(done / of), signal),
      ),
  });

/** Whether it is a question about what the document shows now. */
export const isAbout = (question: DrawQuestion, { setup, gapMm, referenceGapMm }: Document): boolean =>
  sameToModel(question.setup, setup) &&
  question.gapMm === gapMm &&
  question.referenceGapMm === referenceGapMm;
