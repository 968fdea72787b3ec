/** The pipe is made and measured: an invented measurement, and what a fit of a few unknowns makes of it. */
import { openCompareWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import type { Variant } from "../../src/study/compare/compare.ts";
import type { UnknownName } from "../../src/study/measured/columnUnknowns.ts";
import { type Measured, type Overlay, overlay } from "../../src/study/measured/measured.ts";
import { readMeasured } from "../../src/study/measured/measuredCsv.ts";
import { syntheticMeasurement } from "../../src/study/measured/syntheticMeasurement.ts";
import type { FittedColumn } from "../../workers/instrument/compare.ts";
import { following } from "../paper/longWork.ts";

export interface Made {
  readonly variant: Variant;
  /** What the file says about itself, which a real one would not. */
  readonly confession: string;
  readonly measured: Measured;
  /** Beside the model as it was drawn. */
  readonly asDrawn: Overlay;
}

/** One of the drawings, made and measured. All that is drawn is known exactly: what a fit may blame is the pipe's alone. */
export function madeOf({ setup, ...drawn }: Variant): Made {
  const variant = { ...drawn, setup: { ...setup, provenance: {}, uncertainties: {} } };
  const text = syntheticMeasurement(setup);
  const measured = readMeasured(text, "invented.csv");
  return {
    variant,
    confession: text
      .split("\n")
      .filter((line) => line.startsWith("#"))
      .map((line) => line.slice(2))
      .join(" "),
    measured,
    asDrawn: overlay(variant.setup, measured),
  };
}

export const SUSPECTS: Readonly<
  Record<string, { readonly words: string; readonly unknowns: readonly UnknownName[] }>
> = {
  gap: { words: "the gap alone", unknowns: ["gap"] },
  "gap and walls": { words: "the gap and the roughness of the walls", unknowns: ["gap", "wall-loss"] },
  "all three": {
    words: "these and the entry of the leadpipe",
    unknowns: ["gap", "wall-loss", "leadpipe-entry"],
  },
};

export interface FitQuestion {
  readonly made: Made;
  readonly unknowns: readonly UnknownName[];
}

const client = new WorkerClient({ connect: openCompareWorker });
/** As many as it usually takes. */
const usualSteps = 8;

/** Course of the fit. */
export const fit = following<FitQuestion, FittedColumn>(({ made, unknowns }, tell, signal) =>
  client.run(
    "fitColumn",
    made.variant.setup,
    { measured: made.measured, unknowns, noise: null },
    ({ iteration }) => tell(Math.min(iteration, usualSteps), usualSteps + 1),
    signal,
  ),
);

/** An estimate in words, with its interval. */
export function estimateText({
  value,
  interval,
  unknown: { unit },
}: FittedColumn["estimates"][number]): string {
  const written = (x: number) => `${x.toFixed(2)}${unit === "" ? "" : ` ${unit}`}`;
  return interval
    ? `${written(value)} (95 %: ${written(interval[0])} to ${written(interval[1])})`
    : written(value);
}
