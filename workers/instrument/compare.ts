/** Comparing, designing and fitting as a worker serves them: plain data out, apart from the model, so that the hand on the shank is never slowed. */
import { gapMm, type Setup } from "../../src/setup/setup.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { type BellTrust, bellTrustSteps } from "../../src/study/compare/bellTrust.ts";
import {
  type BoreSensitivity,
  type ErrorPlace,
  worstPlace,
} from "../../src/study/compare/boreSensitivity.ts";
import {
  type Compared,
  type CompareOptions,
  compareSteps,
  type Variant,
} from "../../src/study/compare/compare.ts";
import { type VariantCurve, variantCurve } from "../../src/study/compare/compareCurve.ts";
import {
  type Design,
  type DesignOptions,
  type DesignProgress,
  designSteps,
} from "../../src/study/design/design.ts";
import { type Freedom, freedomOf } from "../../src/study/design/designFreedom.ts";
import { type DesignGoal, goalLike } from "../../src/study/design/designGoal.ts";
import {
  type MandrelStation,
  mandrelStations,
  type StationOptions,
} from "../../src/study/design/designStations.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { columnFitSteps, type FitStep } from "../../src/study/measured/columnFit.ts";
import type { ColumnFit, Estimate } from "../../src/study/measured/columnFitResult.ts";
import type { Unknown, UnknownName } from "../../src/study/measured/columnUnknowns.ts";
import { type Measured, type Overlay, overlay } from "../../src/study/measured/measured.ts";
import { syntheticMeasurement } from "../../src/study/measured/syntheticMeasurement.ts";
import { type Refusal, Served, type StepProgress, type Ticket } from "../service/served.ts";

export interface CompareRequest extends Omit<CompareOptions, "goal">, Ticket {
  readonly variants: readonly Variant[];
}

/** Where an error of the diameter does most to a resonance, and what it does there a mm. */
export interface WorstPlace {
  readonly n: number;
  readonly place: ErrorPlace;
  readonly centsPerMm: number;
}

/** One variant with all that is shown of it. */
export interface ComparedVariant extends Compared {
  /** Retuned where that was asked for and possible. */
  readonly curve: VariantCurve;
  /** Of the leadpipe, one a resonance. */
  readonly worst: readonly WorstPlace[];
}

/** Another instrument whose resonances and heights are to be equalled. */
export type LikeVariant = Pick<Variant, "setup">;

export interface DesignQuestion extends Omit<DesignOptions, "goal"> {
  readonly goal: DesignGoal | LikeVariant;
}

export interface DesignRequest extends DesignQuestion, Ticket {}

/** What a search came to, as plain data. */
export interface Designed extends Omit<Design, "problem" | "variables"> {
  /** What the goal leaves open. */
  readonly freedom: Freedom;
}

export interface BellTrustRequest extends Ticket {
  readonly fromGapMm: number;
  readonly toGapMm: number;
}

export interface ColumnFitRequest extends Ticket {
  readonly measured: Measured;
  readonly unknowns: readonly UnknownName[];
  /** Of the measurement, as a part of |Z|; null where it is not known. */
  readonly noise: number | null;
}

/** An estimate as plain data. */
export interface FittedEstimate extends Omit<Estimate, "unknown"> {
  readonly unknown: Omit<Unknown, "set">;
}

/** What a fit came to, as plain data, and the measurement beside the fitted model. */
export interface FittedColumn extends Omit<ColumnFit, "estimates"> {
  readonly estimates: readonly FittedEstimate[];
  readonly after: Overlay;
}

export class Compare extends Served<Setup> {
  #isEnough = false;

  protected subjectOf(setup: Setup): Setup {
    return setup;
  }

  /** Variant by variant. */
  compare({ ticket, variants, ...options }: CompareRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      () => allCompared(variants, options),
      (done) => progress(done, variants.length),
    );
  }

  /** A leadpipe for a goal. */
  design({ ticket, ...question }: DesignRequest, progress: (step: DesignProgress) => void) {
    this.#isEnough = false;
    const isEnough = () => this.#isEnough;
    return this.inSteps(ticket, (setup) => designed(setup, question, isEnough), progress);
  }

  /** Ends the design under way with the best so far. */
  async finish(): Promise<void> {
    this.#isEnough = true;
  }

  /** The leadpipe as a mandrel is turned to it, at the setup's own gap. */
  stations(options: StationOptions): Promise<Refusal | readonly MandrelStation[]> {
    return this.ask((setup) => mandrelStations(new Instrument(setup), gapMm(setup), options));
  }

  /** Plane waves in the bell beside curved fronts, at two gaps. */
  bellTrust({ ticket, fromGapMm, toGapMm }: BellTrustRequest, progress: StepProgress) {
    return this.inSteps<number, BellTrust>(
      ticket,
      (setup) => bellTrustSteps(setup, fromGapMm, toGapMm),
      (done) => progress(done, 2),
    );
  }

  /** A measured impedance beside the model's. */
  overlay(measured: Measured): Promise<Refusal | Overlay> {
    return this.ask((setup) => overlay(setup, measured));
  }

  /** A few unknowns fitted to it. */
  fitColumn({ ticket, ...question }: ColumnFitRequest, progress: (step: FitStep) => void) {
    return this.inSteps(ticket, (setup) => fittedColumn(setup, question), progress);
  }

  /** The text of a measurement that nobody has made. */
  inventMeasurement(): Promise<Refusal | { readonly text: string }> {
    return this.ask((setup) => ({ text: syntheticMeasurement(setup) }));
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
  const wanted =
    "setup" in goal ? goalLike(new Instrument(goal.setup).modes(gapMm(goal.setup)), PLAYED) : goal;
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
