/** What this change of gap does, in one plain sentence or two, from the numbers alone. */

import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { isSameGap, type Setup } from "../../../setup/setup.ts";
import { retunedPitch } from "../../../study/change/retunedPitch.ts";
import { isPlayed, PLAYED } from "../../../study/change/verdicts.ts";
import type { Felt } from "../../../study/feel/felt.ts";
import type { Explored } from "../../../study/instrument/exploration.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import type {
  ChangeUncertainty,
  ModeUncertainty,
  Uncertain,
} from "../../../study/uncertainty/changeUncertainty.ts";
import { noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { standInWords } from "../../../words/provenance.ts";
import {
  backpressureSentence,
  pitchSentence,
  remainsSentence,
  slottingSentence,
} from "../../../words/verdicts/headline.ts";
import type { Unit } from "../../state/state.ts";

export interface Headline {
  /** Pitch, before and after the slide is set again. */
  readonly change: string;
  /** Whether a player would notice what remains; null while that is not known. */
  readonly finding: string | null;
  readonly isNoticed: boolean;
  /** Slotting and backpressure; empty while they are being worked out. */
  readonly onLips: readonly string[];
  readonly heldAgainst: string;
  /** Of whom this is told where not all is measured: instruments like this one; null where nothing is assumed. */
  readonly standIn: string | null;
}

export interface HeadlineInput {
  readonly explored: Explored;
  readonly retuned: GapSweep | null;
  /** What lips and stream say; null while that is being worked out. */
  readonly felt: Felt | null;
  readonly setup: Setup;
  readonly unit: Unit;
}

export function headline(input: HeadlineInput): Headline {
  return { ...saidOfChange(input), standIn: standIn(input) };
}

/** How the gap is known, what a stand-in lends, and between what the change then lies, before retuning. */
function standIn({ explored, setup, unit }: HeadlineInput): string | null {
  const head = standInWords(setup, explored.gapExpandedMm, unit);
  if (head === "") return null;
  const ranges = isSameGap(explored.chosen.gapMm, explored.reference.gapMm)
    ? []
    : explored.changes.filter(isPlayed).flatMap(({ n, shiftCents }) => {
        const expanded = explored.uncertainty?.modes.find((mode) => mode.n === n)?.shiftCents.expanded;
        return expanded === undefined ? [] : [[shiftCents - expanded, shiftCents + expanded] as const];
      });
  if (ranges.length === 0) return `${head}.`;
  const [low, high] = [
    Math.min(...ranges.map(([least]) => least)),
    Math.max(...ranges.map(([, most]) => most)),
  ];
  return `${head}; on instruments like it the change is ${signed(low, 1)} to ${signed(high, 1)} cents (95 %).`;
}

function saidOfChange({ explored, retuned, felt, setup, unit }: HeadlineInput): Omit<Headline, "standIn"> {
  const { thresholds } = setup;
  const { chosen, reference, uncertainty } = explored;
  const instrument = instrumentOf(setup);
  const heldAgainst = `Just noticeable: ${thresholds.cents} cents of pitch, ${thresholds.slotCents} cents of slot width, ${thresholds.pressurePercent} % of backpressure; notes ${noteText(PLAYED[0], instrument)} to ${noteText(PLAYED[1], instrument)}${knownTo(uncertainty)}.`;
  const changeMm = chosen.gapMm - reference.gapMm;
  const nothing = { finding: null, isNoticed: false, onLips: [], heldAgainst };
  if (isSameGap(chosen.gapMm, reference.gapMm))
    return { ...nothing, change: "What if is at the gap compared with: move the shank to see a change." };
  const shifts = explored.changes.filter(isPlayed).map(({ shiftCents }) => shiftCents);
  const pitch = pitchSentence(changeMm, shifts, unit);
  const onLips = felt
    ? [slottingSentence(felt.slots, instrument), backpressureSentence(felt.resistance)].filter(Boolean)
    : [];
  const test = retunedPitch(explored, retuned, thresholds);
  if (!test) {
    const further = retuned && beyond(retuned, chosen.gapMm, unit);
    return { ...nothing, onLips, change: `${pitch}.${further ? ` ${further}` : ""}` };
  }
  const { said, verdict, isNoticed } = remainsSentence(test, instrument);
  return { change: `${pitch}; ${said}.`, finding: verdict, isNoticed, onLips, heldAgainst };
}

/** How well the changes of the played resonances are known; nothing while that is being worked out, or all is taken as exact. */
function knownTo(uncertainty: ChangeUncertainty | null): string {
  const modes = uncertainty?.modes.filter(isPlayed) ?? [];
  const most = (of: (mode: ModeUncertainty) => Uncertain | null) =>
    Math.max(0, ...modes.map((mode) => of(mode)?.expanded ?? 0));
  const centsKnown = most(({ shiftCents }) => shiftCents);
  if (centsKnown === 0) return "";
  return `; known to ±${centsKnown.toPrecision(1)} cents and ±${most(({ heightDb }) => heightDb).toPrecision(1)} dB (95 %)`;
}

/** Why it is not said what remains: the sweep ends before this gap. */
function beyond({ rows }: GapSweep, gapMm: number, unit: Unit): string | null {
  const lastMm = rows[rows.length - 1]?.gapMm;
  return lastMm !== undefined && gapMm > lastMm
    ? `What remains once the slide is set again is worked out for gaps up to ${bothUnits(lastMm, unit)}.`
    : null;
}
