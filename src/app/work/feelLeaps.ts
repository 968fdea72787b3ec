/**
 * A leap experiment over several gaps, spread over as many workers as the machine has cores to spare: each takes a part of
 * the runs of one gap after another. A part's runs are those of the whole, so that what they add up to does not depend on
 * how many workers there were.
 */
import type { FeelWorker } from "../../../workers/feelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import { type LeapTally, mergedTally } from "../../study/feel/leaps.ts";
import type { SlotOptions } from "../../study/feel/slots.ts";
import { Observable } from "../state/observable.ts";
import { FeelClient } from "./feelClient.ts";
import type { Connection } from "./workerClient.ts";

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

export interface LeapsState {
  /** What the tallies are of. */
  readonly experiment: LeapExperiment | null;
  /** By gap: of the runs done so far. */
  readonly tallies: ReadonlyMap<number, LeapTally>;
  /** Share done, 0 to 1; null when nothing is under way. */
  readonly progress: number | null;
  readonly refused: string | null;
}

interface Part {
  readonly gapMm: number;
  readonly part: readonly [first: number, end: number];
}

const spareCores = (): number => Math.max(1, (navigator.hardwareConcurrency || 2) - 1);

export class Leaps extends Observable<LeapsState> {
  readonly #connect: () => Connection<FeelWorker>;
  readonly #workers: number;
  #work: AbortController | null = null;

  constructor(connect: () => Connection<FeelWorker>, workers = spareCores()) {
    super({ experiment: null, tallies: new Map(), progress: null, refused: null });
    this.#connect = connect;
    this.#workers = workers;
  }

  /** Whatever was under way is stopped. */
  async start(experiment: LeapExperiment): Promise<void> {
    this.stop();
    const work = new AbortController();
    this.#work = work;
    this.change({ experiment, tallies: new Map(), progress: 0, refused: null });
    const parts = partsOf(experiment, this.#workers);
    const done = parts.map(() => 0);
    const tallies = new Map<Part, LeapTally>();
    const all = experiment.gapsMm.length * experiment.runs;
    const tell = () => {
      const progress = done.reduce((sum, runs) => sum + runs, 0) / all;
      if (!work.signal.aborted) this.change({ ...this.value, progress });
    };

    let next = 0;
    const worker = async (): Promise<void> => {
      const client = new FeelClient(this.#connect);
      try {
        while (next < parts.length && !work.signal.aborted) {
          const i = next++;
          const { gapMm, part } = parts[i];
          const { setup, gapsMm: _, chosenGapMm: __, ...options } = experiment;
          const progress = (runs: number) => {
            done[i] = runs;
            tell();
          };
          const tally = await client.leaps(setup, { ...options, gapMm, part }, progress, work.signal);
          if (work.signal.aborted || tally === null) return;
          if ("refused" in tally) {
            work.abort();
            this.change({ ...this.value, progress: null, refused: tally.refused });
            return;
          }
          done[i] = tally.runs;
          tallies.set(parts[i], tally);
          this.change({ ...this.value, tallies: byGap(tallies) });
          tell();
        }
      } finally {
        client.close();
      }
    };
    await Promise.all(Array.from({ length: Math.min(this.#workers, parts.length) }, worker));
    if (this.#work !== work || work.signal.aborted) return;
    this.#work = null;
    this.change({ ...this.value, progress: null });
  }

  /** The runs done so far stay. */
  stop(): void {
    this.#work?.abort();
    this.#work = null;
    if (this.value.progress !== null) this.change({ ...this.value, progress: null });
  }
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

function byGap(tallies: ReadonlyMap<Part, LeapTally>): Map<number, LeapTally> {
  const gaps = new Map<number, LeapTally[]>();
  for (const [{ gapMm }, tally] of tallies) gaps.set(gapMm, [...(gaps.get(gapMm) ?? []), tally]);
  return new Map([...gaps].map(([gapMm, parts]) => [gapMm, mergedTally(parts)]));
}
