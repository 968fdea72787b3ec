/**
 * What sweeps found beside what the model says of the same change of gap. Neither is fitted to the other: the model only lends the
 * resonances their numbers. Interval is held against interval: they agree where the difference lies within both taken together.
 */
import { isSameGap } from "../../setup/setup.ts";
import type { Explored } from "../instrument/exploration.ts";
import { cents } from "../instrument/pitch.ts";
import type { Measured, SweptChange, SweptResonance } from "./sweptChange.ts";

/**
 * `agrees`: a shift was found, and the model's is the same within both intervals; `disagrees`: it is not; `cannot-tell`: no shift was
 * found and the model's is not refuted either, or nothing was repeated; `no-model`: the model has no such resonance, or was not asked.
 */
export type SweptFinding = "agrees" | "disagrees" | "cannot-tell" | "no-model";

export interface ComparedResonance extends SweptResonance {
  /** Its partial by the model's count; null where the model has none there. */
  readonly n: number | null;
  /** The model's shift; the half of its interval is null where the setup does not say how well it is known. */
  readonly model: {
    readonly value: number;
    readonly expanded: number | null;
    readonly qPercent: number;
  } | null;
  readonly finding: SweptFinding;
}

export interface BesideModel {
  readonly resonances: readonly ComparedResonance[];
  readonly counts: Readonly<Record<SweptFinding, number>>;
  /** All measured resonances together above the model's, before, cents; null where they could not be told apart. */
  readonly aboveModelCents: number | null;
}

/** A whole instrument may stand this far from its model: slide, temperature. */
const REACH_CENTS = 260;
const STEP_CENTS = 4;
/** With the whole brought to where most fit, a resonance belongs to the model's that is so near. */
const NEAR_CENTS = 45;

/** @param explored the model's answer, which counts where it is about these two gaps */
export function besideModel(swept: SweptChange, explored: Explored | null): BesideModel {
  const isAbout =
    explored !== null &&
    isSameGap(explored.referenceGapMm, swept.beforeMm) &&
    isSameGap(explored.chosen.gapMm, swept.afterMm);
  const modes = isAbout ? explored.reference.modes : [];
  const offset = offsetOf(swept.resonances, modes);
  // no change of gap: what was changed is nothing the model was asked about
  const isOfGap = !isSameGap(swept.beforeMm, swept.afterMm);
  const resonances = swept.resonances.map((one): ComparedResonance => {
    const mode =
      offset === null ? undefined : modes.find(({ frequencyHz }) => isNear(one.hz, frequencyHz, offset));
    const change = isOfGap && mode && explored?.changes.find(({ n }) => n === mode.n);
    const known = explored?.uncertainty?.modes.find(({ n }) => n === mode?.n);
    const model = change
      ? {
          value: change.shiftCents,
          expanded: known?.shiftCents.expanded ?? null,
          qPercent: 100 * (change.Q / mode.Q - 1),
        }
      : null;
    return {
      ...one,
      n: mode?.n ?? null,
      model,
      finding: model ? findingOf(one.shift, model, swept.basis === "once") : "no-model",
    };
  });
  const count = (finding: SweptFinding) => resonances.filter((one) => one.finding === finding).length;
  return {
    resonances,
    counts: {
      agrees: count("agrees"),
      disagrees: count("disagrees"),
      "cannot-tell": count("cannot-tell"),
      "no-model": count("no-model"),
    },
    aboveModelCents: offset,
  };
}

function findingOf(
  shift: Measured,
  model: { readonly value: number; readonly expanded: number | null },
  isOnce: boolean,
): SweptFinding {
  if (isOnce) return "cannot-tell";
  const apart = Math.abs(shift.value - model.value);
  if (apart > Math.hypot(shift.expanded, model.expanded ?? 0)) return "disagrees";
  return isFound(shift) ? "agrees" : "cannot-tell";
}

/** Whether there is a change at all. */
export const isFound = ({ value, expanded }: Measured): boolean => Math.abs(value) > expanded;

const isNear = (hz: number, modeHz: number, offset: number): boolean =>
  Math.abs(cents(hz, modeHz) - offset) < NEAR_CENTS;

/** By how much the whole has to be brought up for most resonances to lie near one of the model's, and these nearest. */
function offsetOf(
  resonances: readonly SweptResonance[],
  modes: readonly { readonly frequencyHz: number }[],
): number | null {
  const apart = (hz: number, offset: number) =>
    Math.min(...modes.map(({ frequencyHz }) => Math.abs(cents(hz, frequencyHz) - offset)));
  let [best, least] = [0, Infinity];
  for (let offset = -REACH_CENTS; offset <= REACH_CENTS; offset += STEP_CENTS) {
    const cost = resonances.reduce((sum, { hz }) => sum + Math.min(NEAR_CENTS, apart(hz, offset)), 0);
    // the smaller of two that do alike
    const weighed = cost + 0.001 * Math.abs(offset);
    if (weighed < least) [best, least] = [offset, weighed];
  }
  const near = resonances.filter(({ hz }) => modes.some(({ frequencyHz }) => isNear(hz, frequencyHz, best)));
  return near.length >= Math.max(2, resonances.length / 2) ? best : null;
}

/** Octaves among the resonances: by how much each got wider, in which what all have in common drops out. */
export interface OctaveChange {
  readonly low: number;
  readonly high: number;
  readonly change: Measured;
}

const OCTAVES: readonly (readonly [low: number, high: number])[] = [
  [2, 4],
  [3, 6],
  [4, 8],
  [5, 10],
];

/** None where nothing was repeated. */
export function octaveChanges(
  swept: SweptChange,
  resonances: readonly ComparedResonance[],
): readonly OctaveChange[] {
  if (swept.basis === "once") return [];
  return OCTAVES.flatMap(([low, high]) => {
    const [one, other] = [low, high].map((n) => resonances.find((of) => of.n === n));
    if (!one || !other) return [];
    const expanded = Math.hypot(one.ownExpanded, other.ownExpanded);
    return [{ low, high, change: { value: other.shift.value - one.shift.value, expanded } }];
  });
}
