/**
 * Variants side by side before any of them is built: leadpipes, mouthpieces or whole instruments, each at its gap, against a
 * chosen one of them, as they are and after each was brought to the same pitch; how far an error of manufacture or of the gap
 * would move them; and which comes nearest to a goal.
 */

import type { Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { type Resistance, resistance } from "../blown/resistance.ts";
import { type ChangedMode, modeChanges } from "../change/modeChanges.ts";
import { MODAL_COUNT } from "../feel/modalColumn.ts";
import { type NoteSlot, slotsAt } from "../feel/slots.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";
import { inContext, type ModeInContext } from "../instrument/modeTable.ts";
import { type BoreSensitivity, boreSensitivity } from "./boreSensitivity.ts";
import { asksForNotes, quantitiesOf } from "./compareQuantities.ts";
import { type Retuned, retuned } from "./compareRetune.ts";
import type { Goal, Quantities } from "./goal.ts";

export interface Variant {
  readonly name: string;
  readonly setup: Setup;
  readonly gapMm: number;
}

export interface CompareOptions {
  /** Which of the variants the others are held against. */
  readonly reference?: number;
  /** Number of the resonance that every variant is brought to the reference's frequency of. */
  readonly retune?: number;
  /** How many resonances, from the lowest. */
  readonly modes?: number;
  readonly goal?: Goal;
  /** Distance from an error's peak to its foot, mm; absent: no sensitivities. */
  readonly errorExtentMm?: number;
  /** Hold and pull of every note, which take longer. */
  readonly withNotes?: boolean;
  readonly litresPerMinute?: number;
}

export interface Compared {
  readonly name: string;
  readonly gapMm: number;
  /** As it is, held against the reference as it is. */
  readonly modes: readonly ChangedMode[];
  /** The same brought to the reference's pitch; null if not asked for or not possible. */
  readonly retuned: RetunedModes | null;
  /** Why it could not be retuned. */
  readonly refusal: string | null;
  readonly sensitivity: BoreSensitivity | null;
  readonly notes: readonly NoteSlot[] | null;
  readonly resistance: Resistance | null;
  /** Retuned where that was asked for and possible. */
  readonly quantities: Quantities;
  /** The goal's value; null without one or where a quantity is missing. */
  readonly score: number | null;
}

export interface RetunedModes {
  readonly drawMm: number;
  readonly by: Retuned["by"];
  readonly modes: readonly ChangedMode[];
}

/** What every variant is held against. */
export interface Comparison {
  readonly reference: number;
  readonly retune: number | null;
  readonly variants: readonly Compared[];
  /** Variants from the lowest score up, those without one left out; null without a goal. */
  readonly ranking: readonly number[] | null;
}

/** All at once. @throws as `compareSteps` */
export function compare(variants: readonly Variant[], options: CompareOptions = {}): Comparison {
  const compared = [...compareSteps(variants, options)];
  return comparisonOf(compared, options);
}

/** Variants put side by side: ranked by the goal, best (least) first, where there is one. */
export function comparisonOf(compared: readonly Compared[], options: CompareOptions): Comparison {
  const scored = compared.flatMap(({ score }, i) => (score === null ? [] : [{ score, i }]));
  return {
    reference: options.reference ?? 0,
    retune: options.retune ?? null,
    variants: compared,
    ranking: options.goal ? scored.sort((a, b) => a.score - b.score).map(({ i }) => i) : null,
  };
}

/**
 * One variant after the other, each an answer of its own.
 * @throws SetupError on a gap a receiver cannot have, RangeError on a reference or a resonance that is not there
 */
export function* compareSteps(
  variants: readonly Variant[],
  options: CompareOptions = {},
): Generator<Compared, void, void> {
  const { reference: index = 0, retune, modes: count = 12 } = options;
  const chosen = variants[index];
  if (!chosen)
    throw new OutOfRange(
      `there is no candidate ${index + 1} to compare with: choose one from 1 to ${variants.length}`,
    );
  let instrument = new Instrument(chosen.setup, { modes: count });
  const reference = inContext(instrument.modes(chosen.gapMm));
  if (retune !== undefined && !reference[retune - 1])
    throw new OutOfRange(`resonance ${retune} does not exist here: choose one from 1 to ${reference.length}`);
  // an instrument's own setup is the settled one, another object than was asked for
  let asked = chosen.setup;
  for (const variant of variants) {
    if (variant.setup !== asked) instrument = new Instrument(variant.setup, { modes: count });
    asked = variant.setup;
    yield compared(variant, instrument, reference, options);
  }
}

function compared(
  { name, setup, gapMm }: Variant,
  instrument: Instrument,
  reference: readonly ModeInContext[],
  { retune, goal, errorExtentMm, withNotes = false, litresPerMinute = 20 }: CompareOptions,
): Compared {
  const modes = modeChanges(instrument.modes(gapMm), reference);
  const { at, refusal } = retune === undefined ? AS_IT_IS : tryRetune(instrument, gapMm, retune, reference);
  const tuned = at && { drawMm: at.drawMm, by: at.by, modes: modeChanges(at.modes, reference) };
  const notes = withNotes || (goal && asksForNotes(goal.symbols)) ? notesOf(setup, gapMm) : null;
  const flow = litresPerMinute > 0 ? resistance(setup, { gapMm, litresPerMinute }) : null;
  const quantities = quantitiesOf({
    gapMm,
    slideMm: tuned?.drawMm ?? (retune === undefined ? 0 : null),
    modes: tuned?.modes ?? modes,
    notes,
    resistance: flow,
  });
  return {
    name,
    gapMm,
    modes,
    retuned: tuned,
    refusal,
    sensitivity:
      errorExtentMm === undefined
        ? null
        : boreSensitivity(at?.instrument ?? instrument, gapMm, {
            extentMm: errorExtentMm,
            drawMm: at?.drawMm ?? 0,
          }),
    notes,
    resistance: flow,
    quantities,
    // what cannot be brought to pitch is not ranked among those that were
    score: goal && refusal === null ? goal.score(quantities) : null,
  };
}

interface Attempt {
  readonly at: Retuned | null;
  readonly refusal: string | null;
}
const AS_IT_IS: Attempt = { at: null, refusal: null };

function tryRetune(instrument: Instrument, gapMm: number, n: number, reference: readonly Mode[]): Attempt {
  try {
    return { at: retuned(instrument, gapMm, n, reference[n - 1].frequencyHz), refusal: null };
  } catch (error) {
    if (!(error instanceof OutOfRange)) throw error;
    return { at: null, refusal: error.message };
  }
}

const notesOf = (setup: Setup, gapMm: number): readonly NoteSlot[] =>
  slotsAt(new Instrument(setup, { modes: MODAL_COUNT }), gapMm, { referenceGapMm: gapMm }).notes;
