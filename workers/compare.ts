/** Comparing and designing as a worker serves them: long work in steps, plain data out. */
import type { Setup } from "../src/setup/setup.ts";
import { PLAYED } from "../src/study/change/verdicts.ts";
import { type BellTrust, bellTrustSteps } from "../src/study/compare/bellTrust.ts";
import { type BoreSensitivity, worstPlace } from "../src/study/compare/boreSensitivity.ts";
import { type Compared, compareSteps, type Variant } from "../src/study/compare/compare.ts";
import { type VariantCurve, variantCurve } from "../src/study/compare/compareCurve.ts";
import { type DesignProgress, designSteps } from "../src/study/design/design.ts";
import { freedomOf } from "../src/study/design/designFreedom.ts";
import { goalLike } from "../src/study/design/designGoal.ts";
import { type MandrelStation, mandrelStations } from "../src/study/design/designStations.ts";
import { Instrument } from "../src/study/instrument/instrument.ts";
import { columnFitSteps, type FitStep } from "../src/study/measured/columnFit.ts";
import { type Measured, type Overlay, overlay } from "../src/study/measured/measured.ts";
import { syntheticMeasurement } from "../src/study/measured/syntheticMeasurement.ts";
import type {
  BellTrustRequest,
  ColumnFitRequest,
  ComparedVariant,
  CompareRequest,
  CompareWorker,
  Designed,
  DesignQuestion,
  DesignRequest,
  FittedColumn,
  StationsRequest,
  WorstPlace,
} from "./compareProtocol.ts";
import { answered, isRefusal, LongWork } from "./longWork.ts";
import type { Refusal, StepProgress } from "./modelProtocol.ts";

export class Compare implements CompareWorker {
  /** Messages keep their order, so a question awaits the setup it followed. */
  #setup: Promise<Setup | Refusal> = Promise.resolve({ refused: "no setup is loaded" });
  readonly #work = new LongWork<Setup>();
  #isEnough = false;

  async load(setup: Setup): Promise<{ readonly ok: true }> {
    this.#work.stopAll();
    this.#setup = Promise.resolve(setup);
    return { ok: true };
  }

  compare({ ticket, variants, ...options }: CompareRequest, progress: StepProgress) {
    return this.#work.run(
      ticket,
      this.#setup,
      () => allCompared(variants, options),
      (done) => progress(done, variants.length),
    );
  }

  design({ ticket, ...options }: DesignRequest, progress: (step: DesignProgress) => void) {
    this.#isEnough = false;
    const isEnough = () => this.#isEnough;
    return this.#work.run(ticket, this.#setup, (setup) => designed(setup, options, isEnough), progress);
  }

  async finish(): Promise<void> {
    this.#isEnough = true;
  }

  stations({ gapMm, ...options }: StationsRequest): Promise<Refusal | readonly MandrelStation[]> {
    return this.#ask((setup) => mandrelStations(new Instrument(setup), gapMm, options));
  }

  bellTrust({ ticket, fromGapMm, toGapMm }: BellTrustRequest, progress: StepProgress) {
    return this.#work.run<number, BellTrust>(
      ticket,
      this.#setup,
      (setup) => bellTrustSteps(setup, fromGapMm, toGapMm),
      (done) => progress(done, 2),
    );
  }

  overlay(measured: Measured): Promise<Refusal | Overlay> {
    return this.#ask((setup) => overlay(setup, measured));
  }

  fitColumn({ ticket, ...question }: ColumnFitRequest, progress: (step: FitStep) => void) {
    return this.#work.run(ticket, this.#setup, (setup) => fittedColumn(setup, question), progress);
  }

  inventMeasurement(): Promise<Refusal | { readonly text: string }> {
    return this.#ask((setup) => ({ text: syntheticMeasurement(setup) }));
  }

  async #ask<T extends object>(question: (setup: Setup) => T): Promise<T | Refusal> {
    const setup = await this.#setup;
    return isRefusal(setup) ? setup : answered(() => question(setup));
  }

  async stop(ticket: number): Promise<void> {
    this.#work.stop(ticket);
  }
}

function* allCompared(
  variants: readonly Variant[],
  options: Omit<CompareRequest, "ticket" | "variants">,
): Generator<number, readonly ComparedVariant[], void> {
  const all: Compared[] = [];
  for (const compared of compareSteps(variants, options)) {
    all.push(compared);
    yield all.length;
  }
  const reference = all[options.reference ?? 0];
  const done: ComparedVariant[] = [];
  for (const [i, compared] of all.entries()) {
    const { sensitivity } = compared;
    done.push({
      ...compared,
      curve: curveOf(variants[i], compared, reference, options.retune),
      worst: sensitivity ? worstPlaces(sensitivity) : [],
    });
    yield all.length;
  }
  return done;
}

function curveOf(
  { setup, gapMm }: Variant,
  { retuned }: Compared,
  { modes }: Compared,
  n: number | undefined,
): VariantCurve {
  const to = retuned && n !== undefined ? { n, frequencyHz: modes[n - 1].frequencyHz } : null;
  return variantCurve(setup, gapMm, to);
}

/** Of the leadpipe alone: it is what is built. */
function worstPlaces(all: BoreSensitivity): WorstPlace[] {
  const leadpipe = all.places.flatMap(({ part }, i) => (part === "leadpipe" ? [i] : []));
  const places = { ...all, places: leadpipe.map((i) => all.places[i]) };
  return all.modes.map(({ n, centsPerMm }) => {
    const { place, change } = worstPlace(
      places,
      Float64Array.from(leadpipe, (i) => centsPerMm[i]),
      1,
    );
    return { n, place, centsPerMm: change };
  });
}

/** @param isEnough asked after every step: whether to end with the best so far */
function* designed(
  setup: Setup,
  { goal, ...options }: DesignQuestion,
  isEnough: () => boolean,
): Generator<DesignProgress, Designed, void> {
  const wanted = "setup" in goal ? goalLike(new Instrument(goal.setup).modes(goal.gapMm), PLAYED) : goal;
  const steps = designSteps(setup, { ...options, goal: wanted });
  let step = steps.next();
  while (!step.done) {
    yield step.value;
    step = steps.next(isEnough());
  }
  const { problem, variables, ...design } = step.value;
  return { ...design, freedom: freedomOf(problem, variables) };
}

function* fittedColumn(
  setup: Setup,
  { measured, unknowns, noise }: Omit<ColumnFitRequest, "ticket">,
): Generator<FitStep, FittedColumn, void> {
  const { estimates, ...fit } = yield* columnFitSteps(setup, measured, unknowns, noise);
  return {
    ...fit,
    estimates: estimates.map(({ unknown: { set: _, ...unknown }, ...estimate }) => ({
      ...estimate,
      unknown,
    })),
    after: overlay(fit.setup, measured),
  };
}
