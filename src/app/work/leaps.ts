/**
 * A leap experiment over several gaps, spread over as many workers as the machine has cores to spare: each takes a part of
 * the runs of one gap after another. A part's runs are those of the whole, so that what they add up to does not depend on
 * how many workers there were.
 */
import type { Feel } from "../../../workers/instrument/feel.ts";
import type { Refusal } from "../../../workers/service/served.ts";
import type { Setup } from "../../setup/setup.ts";
import { type LeapTally, mergedTally } from "../../study/feel/leaps.ts";
import type { SlotOptions } from "../../study/feel/slots.ts";
import type { Connection } from "./connection.ts";
import { openFeelWorker } from "./openWorkers.ts";
import { Work } from "./work.ts";
import { inOwnWorker, type WorkerClient } from "./workerClient.ts";

export interface LeapExperiment extends SlotOptions {
  readonly setup: Setup;
  readonly gapsMm: readonly number[];
  readonly chosenGapMm: number;
  readonly referenceGapMm: number;
  readonly from: number;
  readonly to: number;
  readonly aimCents: number;
  readonly runs: number;
}

/** By gap: of the runs done so far. */
export type LeapTallies = ReadonlyMap<number, LeapTally>;

interface Part {
  readonly gapMm: number;
  readonly part: readonly [first: number, end: number];
}

const spareCores = (): number => Math.max(1, (navigator.hardwareConcurrency || 2) - 1);

/** A step is the tallies so far. */
export const leaps = (connect: () => Connection<Feel> = openFeelWorker, workers = spareCores()) =>
  new Work<LeapExperiment, LeapTallies, LeapTallies>({
    ask: (experiment, tell, signal) => leapInParts(experiment, connect, workers, tell, signal),
    forgets: true,
  });

async function leapInParts(
  experiment: LeapExperiment,
  connect: () => Connection<Feel>,
  workers: number,
  tell: (progress: number, tallies: LeapTallies) => void,
  signal: AbortSignal,
): Promise<LeapTallies | Refusal | null> {
  const { setup, gapsMm, chosenGapMm: _, ...options } = experiment;
  const parts = partsOf(experiment, workers);
  const done = parts.map(() => 0);
  const found = new Map<Part, LeapTally>();
  const refusing = new AbortController();
  const ended = AbortSignal.any([signal, refusing.signal]);
  let refusal: Refusal | null = null;
  let tallies: LeapTallies = new Map();
  const told = () =>
    tell(done.reduce((sum, runs) => sum + runs, 0) / (gapsMm.length * experiment.runs), tallies);

  let next = 0;
  const work = async (client: WorkerClient<Feel>): Promise<void> => {
    while (next < parts.length && !ended.aborted) {
      const i = next++;
      const progress = (runs: number) => {
        done[i] = runs;
        told();
      };
      const tally = await client.run("leaps", setup, { ...options, ...parts[i] }, progress, ended);
      if (ended.aborted || tally === null) return;
      if ("refused" in tally) {
        refusal = tally;
        refusing.abort();
        return;
      }
      found.set(parts[i], tally);
      tallies = byGap(found);
      progress(tally.runs);
    }
  };
  const crew = Array.from({ length: Math.min(workers, parts.length) }, () => inOwnWorker({ connect }, work));
  await Promise.all(crew);
  return refusal ?? tallies;
}

/** The runs of each gap cut into as many parts as there are workers, the gaps in the order given. */
function partsOf({ gapsMm, runs }: LeapExperiment, workers: number): Part[] {
  const pieces = Math.min(workers, runs);
  return gapsMm.flatMap((gapMm) =>
    Array.from({ length: pieces }, (_, i): Part => {
      const at = (piece: number) => Math.round((piece * runs) / pieces);
      return { gapMm, part: [at(i), at(i + 1)] };
    }),
  );
}

function byGap(found: ReadonlyMap<Part, LeapTally>): LeapTallies {
  const gaps = new Map<number, LeapTally[]>();
  for (const [{ gapMm }, tally] of found) gaps.set(gapMm, [...(gaps.get(gapMm) ?? []), tally]);
  return new Map([...gaps].map(([gapMm, parts]) => [gapMm, mergedTally(parts)]));
}
