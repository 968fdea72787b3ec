/** What this change of gap does, in one plain sentence or two, from the numbers alone. */

import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { isSameGap, type Setup } from "../../../setup/setup.ts";
import { isDecided } from "../../../study/change/judgement.ts";
import { isPlayed, judged, PLAYED } from "../../../study/change/verdicts.ts";
import type { Felt } from "../../../study/feel/felt.ts";
import { betweenGaps } from "../../../study/instrument/betweenGaps.ts";
import type { Explored } from "../../../study/instrument/exploration.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import type {
  ChangeUncertainty,
  ModeUncertainty,
  Uncertain,
} from "../../../study/uncertainty/changeUncertainty.ts";
import { notesText, noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { standInWords } from "../../../words/provenance.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import type { Unit } from "../../state/state.ts";

export interface Headline {
  /** Before anyone touches the tuning slide. */
  readonly change: string;
  /** After retuning; null while that is not known. */
  readonly remains: string | null;
  /** Whether it matters; null while that is not known. */
  readonly finding: string | null;
  readonly isFelt: boolean;
  /** Notes whose slots change so that it can be felt; null where none does, or that is being worked out. */
  readonly holds: string | null;
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
  const { chosen, reference } = explored;
  const { uncertainty } = explored;
  const known = (n: number) => uncertainty?.modes.find((mode) => mode.n === n);
  const heldAgainst = `Felt from ${thresholds.cents} cents or ${thresholds.decibels} dB; notes ${noteText(PLAYED[0], instrumentOf(setup))} to ${noteText(PLAYED[1], instrumentOf(setup))}${knownTo(uncertainty)}.`;
  const changeMm = chosen.gapMm - reference.gapMm;
  if (changeMm === 0)
    return {
      change: "The chosen gap is the reference gap: move the shank to compare.",
      remains: null,
      finding: null,
      isFelt: false,
      holds: null,
      heldAgainst,
    };
  const played = explored.changes.filter(isPlayed);
  const shifts = played.map(({ shiftCents }) => shiftCents);
  const heights = played.flatMap(({ n, heightDb }) =>
    heightDb === null ? [] : [{ n, change: heightDb, expanded: known(n)?.heightDb?.expanded ?? null }],
  );
  const tallest = Math.max(0, ...heights.map(({ change }) => Math.abs(change)));
  const change =
    `${bothUnits(Math.abs(changeMm), unit)} ${changeMm > 0 ? "more" : "less"} gap ${shiftInWords(shifts)} before retuning ` +
    `and changes peak heights by at most ${tallest.toFixed(2)} dB.`;

  const instrument = instrumentOf(setup);
  const holds = feltHolds(felt, instrument);
  const between = retuned?.referenceGapMm === reference.gapMm ? betweenGaps(retuned, chosen.gapMm) : null;
  const left = between?.filter(isPlayed).map(({ n, shiftCents }) => ({
    n,
    change: shiftCents,
    expanded: known(n)?.retunedCents?.expanded ?? null,
  }));
  if (!retuned || !left || left.length === 0)
    return {
      change,
      remains: retuned && beyond(retuned, chosen.gapMm, unit),
      finding: null,
      isFelt: false,
      holds,
      heldAgainst,
    };
  const values = left.map((shift) => shift.change);
  const remains = `With ${noteText(retuned.retune ?? 4, instrument)} tuned back, ${signed(Math.min(...values), 1)} to ${signed(Math.max(...values), 1)} cents remain:`;
  const judgements = [
    ...left.map((shift) => ({ n: shift.n, judgement: judged(shift, thresholds.cents) })),
    ...heights.map((height) => ({ n: height.n, judgement: judged(height, thresholds.decibels) })),
  ];
  const certain = judgements.filter(({ judgement }) => isDecided(judgement)).map(({ n }) => n);
  const numbers = [...new Set(certain)].sort((a, b) => a - b);
  const finding =
    numbers.length > 0
      ? `large enough to feel on ${notesText(numbers, instrument)}`
      : judgements.some(({ judgement }) => judgement === "unknown")
        ? "not known well enough to say"
        : TOO_SMALL;
  return { change, remains, finding, isFelt: numbers.length > 0, holds, heldAgainst };
}

/** By slots, which peaks do not tell: firmer or looser by what can be felt, whatever the lips. */
function feltHolds(felt: Felt | null, instrument: InstrumentKind): string | null {
  const notes = felt?.change?.notes ?? [];
  const said = (["firmer", "looser"] as const).flatMap((way) => {
    const numbers = notes.filter(({ finding }) => finding === way).map(({ n }) => n);
    return numbers.length === 0
      ? []
      : [`${notesText(numbers, instrument)} hold${numbers.length > 1 ? "" : "s"} ${way}`];
  });
  return said.length === 0 ? null : `On modelled lips ${said.join(", ")}: enough to feel.`;
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

function shiftInWords(shifts: readonly number[]): string {
  const [low, high] = [Math.min(...shifts), Math.max(...shifts)];
  const span = (a: number, b: number) =>
    a.toFixed(1) === b.toFixed(1) ? `${a.toFixed(1)} cents` : `${a.toFixed(1)} to ${b.toFixed(1)} cents`;
  if (high < 0.05) return `lowers the resonances by ${span(Math.abs(Math.min(0, high)), -low)}`;
  if (low > -0.05) return `raises the resonances by ${span(Math.max(0, low), high)}`;
  return `shifts the resonances by ${signed(low, 1)} to ${signed(high, 1)} cents`;
}

/** Why it is not said what remains: the sweep ends before this gap. */
function beyond({ rows }: GapSweep, gapMm: number, unit: Unit): string | null {
  const lastMm = rows[rows.length - 1]?.gapMm;
  return lastMm !== undefined && gapMm > lastMm
    ? `What remains after retuning is worked out for gaps up to ${bothUnits(lastMm, unit)}.`
    : null;
}
