/** The page's workers beside the model's; each is started at the first question put to it, never before. */
import type { Compare } from "../../../workers/compare.ts";
import type { Feel } from "../../../workers/feel.ts";
import type { Listener } from "../../../workers/listen.ts";
import type { SecondCopy } from "../../../workers/secondCopy.ts";
import type { Sweeper } from "../../../workers/sweep.ts";
import type { TrialStatistics } from "../../../workers/trial.ts";
import type { VoiceMaker } from "../../../workers/voice.ts";
import { connectionTo } from "./connection.ts";

// the bundler finds a worker by an address written out where it is started
export const openCompareWorker = () =>
  connectionTo<Compare>(
    new Worker(new URL("../../../workers/compare.worker.ts", import.meta.url), { type: "module" }),
  );

export const openFeelWorker = () =>
  connectionTo<Feel>(
    new Worker(new URL("../../../workers/feel.worker.ts", import.meta.url), { type: "module" }),
  );

export const openListenWorker = () =>
  connectionTo<Listener>(
    new Worker(new URL("../../../workers/listen.worker.ts", import.meta.url), { type: "module" }),
  );

export const openSecondCopyWorker = () =>
  connectionTo<SecondCopy>(
    new Worker(new URL("../../../workers/secondCopy.worker.ts", import.meta.url), { type: "module" }),
  );

export const openSweepWorker = () =>
  connectionTo<Sweeper>(
    new Worker(new URL("../../../workers/sweep.worker.ts", import.meta.url), { type: "module" }),
  );

export const openTrialWorker = () =>
  connectionTo<TrialStatistics>(
    new Worker(new URL("../../../workers/trial.worker.ts", import.meta.url), { type: "module" }),
  );

export const openVoiceWorker = () =>
  connectionTo<VoiceMaker>(
    new Worker(new URL("../../../workers/voice.worker.ts", import.meta.url), { type: "module" }),
  );
