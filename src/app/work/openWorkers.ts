/** The page's workers beside the model's; each is started at the first question put to it, never before. */
import type { Compare } from "../../../workers/instrument/compare.ts";
import type { Feel } from "../../../workers/instrument/feel.ts";
import type { Listener } from "../../../workers/microphone/listen.ts";
import type { Sweeper } from "../../../workers/microphone/sweep.ts";
import type { SecondCopy } from "../../../workers/record/secondCopy.ts";
import type { TrialStatistics } from "../../../workers/trial/trial.ts";
import type { VoiceMaker } from "../../../workers/voice/voice.ts";
import { connectionTo } from "./connection.ts";

// the bundler finds a worker by an address written out where it is started
export const openCompareWorker = () =>
  connectionTo<Compare>(
    new Worker(new URL("../../../workers/instrument/compare.worker.ts", import.meta.url), { type: "module" }),
  );

export const openFeelWorker = () =>
  connectionTo<Feel>(
    new Worker(new URL("../../../workers/instrument/feel.worker.ts", import.meta.url), { type: "module" }),
  );

export const openListenWorker = () =>
  connectionTo<Listener>(
    new Worker(new URL("../../../workers/microphone/listen.worker.ts", import.meta.url), { type: "module" }),
  );

export const openSecondCopyWorker = () =>
  connectionTo<SecondCopy>(
    new Worker(new URL("../../../workers/record/secondCopy.worker.ts", import.meta.url), { type: "module" }),
  );

export const openSweepWorker = () =>
  connectionTo<Sweeper>(
    new Worker(new URL("../../../workers/microphone/sweep.worker.ts", import.meta.url), { type: "module" }),
  );

export const openTrialWorker = () =>
  connectionTo<TrialStatistics>(
    new Worker(new URL("../../../workers/trial/trial.worker.ts", import.meta.url), { type: "module" }),
  );

export const openVoiceWorker = () =>
  connectionTo<VoiceMaker>(
    new Worker(new URL("../../../workers/voice/voice.worker.ts", import.meta.url), { type: "module" }),
  );
