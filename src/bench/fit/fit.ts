/** One mouthpiece in one receiver: where the shank seats, the gap that leaves, how well it sits, and how sure that is. */
import type { LengthUnit } from "../../units/length.ts";
import { dimensionFlaw } from "./dimensionFlaw.ts";
import {
  type FitDimension,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
  smallestTaper,
} from "./fitDimensions.ts";
import { type FitBudgetRow, fitUncertainty } from "./fitUncertainty.ts";
import { type Seat, seat, seatTaper } from "./seat.ts";
import { type TaperMismatch, taperMismatch } from "./taperMismatch.ts";

export interface FitOptions {
  readonly uncertainties?: FitUncertainties;
  /** Clearance of the diameters up to which two walls count as touching, mm. */
  readonly clearanceMm?: number;
  /** What a refusal speaks in; mm where left out. */
  readonly unit?: LengthUnit;
}

/** One thing to know about a pair. */
export type FitFinding =
  /** Dimensions that cannot be, and the refusal that says why. */
  | { readonly kind: "impossible"; readonly flaw: string }
  | { readonly kind: "too-large"; readonly shankEndDiameterMm: number; readonly mouthDiameterMm: number }
  /** On the leadpipe: without any taper, before it seats, or just as it seats. */
  | { readonly kind: "untapered" | "falls-through"; readonly looseMm: number }
  | { readonly kind: "just-seats" }
  | { readonly kind: "contact"; readonly contact: TaperMismatch }
  | { readonly kind: "unknown-uncertainty" }
  /** Dimensions without an uncertainty where others have one. */
  | { readonly kind: "taken-as-exact"; readonly dimensions: readonly FitDimension[] }
  /** The tapers are too close, for their uncertainties, to say which end touches. */
  | { readonly kind: "touch-unknown" }
  /** The gap is less than its expanded uncertainty. */
  | { readonly kind: "maybe-contact" };

export interface Fit {
  readonly outcome: "seated" | "on-leadpipe" | "not-entering" | "impossible";
  /** Undefined, as all numbers below, where the outcome has none. */
  readonly insertionMm: number | undefined;
  readonly gapMm: number | undefined;
  readonly standardUncertaintyMm: number | undefined;
  /** What that uncertainty is made of; empty without one. */
  readonly budget: readonly FitBudgetRow[];
  /** False where the tapers are too close, for their uncertainties, to say which end touches. */
  readonly isTouchKnown: boolean;
  /** For a seated shank. */
  readonly contact: TaperMismatch | undefined;
  /** Change of insertion per change of diameter at the seat, mm per mm. */
  readonly insertionPerDiameter: number | undefined;
  /** What the person should know; never empty. */
  readonly findings: readonly FitFinding[];
}

export const defaultClearanceMm = 0.01;

/** Every geometry has an answer; one that cannot be is answered with what is wrong with it. */
export function fitOf(dimensions: FitDimensions, options: FitOptions = {}): Fit {
  const { uncertainties = {}, clearanceMm = defaultClearanceMm, unit = "mm" } = options;
  const flaw = dimensionFlaw(dimensions, uncertainties, unit) ?? clearanceFlaw(clearanceMm, unit);
  if (flaw) return withoutNumbers("impossible", { kind: "impossible", flaw });

  const seated = seat(dimensions);
  if (seated.kind === "not-entering") {
    const { shankEndDiameterMm, mouthDiameterMm } = dimensions;
    return withoutNumbers("not-entering", { kind: "too-large", shankEndDiameterMm, mouthDiameterMm });
  }
  const perDiameter = 1 / seatTaper(dimensions.shankTaper, dimensions.receiverTaper);
  if (seated.kind === "on-leadpipe")
    return {
      ...withoutNumbers("on-leadpipe", onLeadpipe(dimensions, seated)),
      insertionMm: seated.insertionMm,
      gapMm: 0,
    };

  const { insertionMm } = seated;
  const gapMm = dimensions.depthMm - insertionMm;
  const uncertainty = fitUncertainty(dimensions, uncertainties);
  const contact = taperMismatch(dimensions, seated, clearanceMm);
  return {
    outcome: "seated",
    insertionMm,
    gapMm,
    standardUncertaintyMm: uncertainty?.standardUncertaintyMm,
    budget: uncertainty?.budget ?? [],
    isTouchKnown: uncertainty?.isTouchKnown ?? true,
    contact,
    insertionPerDiameter: perDiameter,
    findings: [{ kind: "contact", contact }, ...uncertaintyFindings(gapMm, uncertainty, uncertainties)],
  };
}

/** What is wrong with a preferred gap; undefined where nothing is. */
export const preferredFlaw = (preferredMm: number, unit: LengthUnit = "mm"): string | undefined =>
  preferredMm >= 0 && preferredMm <= 1000
    ? undefined
    : `the preferred gap is not a length from 0 to ${unit === "mm" ? "1000 mm; give one such as 2.5 mm" : "39.37 in; give one such as 0.1 in"}`;

/** What is wrong with a clearance; undefined when nothing is. */
export const clearanceFlaw = (clearanceMm: number, unit: LengthUnit = "mm"): string | undefined =>
  clearanceMm >= 0 && clearanceMm <= 1000
    ? undefined
    : `the clearance is not a length of 0 ${unit} or more; give one such as ${unit === "mm" ? "0.01 mm" : "0.0004 in"}`;

const withoutNumbers = (outcome: Fit["outcome"], finding: FitFinding): Fit => ({
  outcome,
  insertionMm: undefined,
  gapMm: undefined,
  standardUncertaintyMm: undefined,
  budget: [],
  isTouchKnown: true,
  contact: undefined,
  insertionPerDiameter: undefined,
  findings: [finding],
});

function onLeadpipe(
  { shankTaper, receiverTaper }: FitDimensions,
  { looseMm }: Seat & { kind: "on-leadpipe" },
): FitFinding {
  if (seatTaper(shankTaper, receiverTaper) < smallestTaper) return { kind: "untapered", looseMm };
  return looseMm > 1e-6 ? { kind: "falls-through", looseMm } : { kind: "just-seats" };
}

function uncertaintyFindings(
  gapMm: number,
  uncertainty: ReturnType<typeof fitUncertainty>,
  given: FitUncertainties,
): FitFinding[] {
  if (uncertainty === undefined) return [{ kind: "unknown-uncertainty" }];
  const dimensions = fitDimensions.filter((dimension) => given[dimension] === undefined);
  return [
    ...(dimensions.length > 0 ? [{ kind: "taken-as-exact", dimensions } as const] : []),
    ...(uncertainty.isTouchKnown ? [] : [{ kind: "touch-unknown" } as const]),
    ...(gapMm < 2 * uncertainty.standardUncertaintyMm ? [{ kind: "maybe-contact" } as const] : []),
  ];
}
