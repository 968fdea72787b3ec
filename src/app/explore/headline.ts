/** What this change of gap does, in one plain sentence or two, from the numbers alone. */
import { bothUnits, signed } from "../../charts/numbers.ts";
import type { Thresholds } from "../../setup/setup.ts";
import type { ChangeUncertainty, ModeUncertainty, Uncertain } from "../../study/changeUncertainty.ts";
import type { Explored } from "../../study/exploration.ts";
import type { GapSweep } from "../../study/gapSweep.ts";
import type { ChangedMode } from "../../study/modeChanges.ts";
import { isCertain, isHidden, isPlayed, PLAYED } from "../../study/verdicts.ts";
import type { Unit } from "../store/state.ts";

export interface Headline {
  /** Before anyone touches the tuning slide. */
  readonly change: string;
  /** After retuning; null while that is not known. */
  readonly remains: string | null;
  /** Whether it matters; null while that is not known. */
  readonly finding: string | null;
  readonly isFelt: boolean;
  readonly heldAgainst: string;
}

export interface HeadlineInput {
  readonly explored: Explored;
  readonly retuned: GapSweep | null;
  readonly thresholds: Thresholds;
  readonly unit: Unit;
}

export function headline({ explored, retuned, thresholds, unit }: HeadlineInput): Headline {
  const { chosen, reference } = explored;
  const { uncertainty } = explored;
  const known = (n: number) => uncertainty?.modes.find((mode) => mode.n === n);
  const heldAgainst = `Felt from ${thresholds.cents} cents or ${thresholds.decibels} dB; resonances ${PLAYED[0]} to ${PLAYED[1]}${knownTo(uncertainty)}.`;
  const changeMm = chosen.gapMm - reference.gapMm;
  if (changeMm === 0)
    return {
      change: "The chosen gap is the reference gap: move the shank to compare.",
      remains: null,
      finding: null,
      isFelt: false,
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

  const left = (retuned?.referenceGapMm === reference.gapMm ? shiftsAt(retuned, chosen.gapMm) : []).map(
    ({ n, value }) => ({ n, change: value, expanded: known(n)?.retunedCents?.expanded ?? null }),
  );
  if (!retuned || left.length === 0)
    return { change, remains: null, finding: null, isFelt: false, heldAgainst };
  const values = left.map((shift) => shift.change);
  const remains = `With resonance ${retuned.retune} tuned back, ${signed(Math.min(...values), 1)} to ${signed(Math.max(...values), 1)} cents remain:`;
  const judged = [
    ...left.map((shift) => [shift, thresholds.cents] as const),
    ...heights.map((height) => [height, thresholds.decibels] as const),
  ];
  const felt = judged.filter(([one, threshold]) => isCertain(one, threshold)).map(([{ n }]) => n);
  const numbers = [...new Set(felt)].sort((a, b) => a - b);
  const finding =
    numbers.length > 0
      ? `large enough to feel on resonance${numbers.length > 1 ? "s" : ""} ${listed(numbers)}`
      : judged.some(([one, threshold]) => isHidden(one, threshold))
        ? "not known well enough to say"
        : "too small to feel";
  return { change, remains, finding, isFelt: numbers.length > 0, heldAgainst };
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

/** Between two gaps of the sweep by a straight line, as the charts draw it. */
function shiftsAt({ rows }: GapSweep, gapMm: number): { n: number; value: number }[] {
  const next = rows.findIndex((row) => row.gapMm >= gapMm);
  if (next === -1) return [];
  const above = rows[next];
  const below = rows[Math.max(0, next - 1)];
  const share = above === below ? 0 : (gapMm - below.gapMm) / (above.gapMm - below.gapMm);
  if (above === below && above.gapMm !== gapMm) return [];
  return above.modes.filter(isPlayed).flatMap((mode: ChangedMode) => {
    const from = below.modes.find(({ n }) => n === mode.n);
    return from ? [{ n: mode.n, value: from.shiftCents + share * (mode.shiftCents - from.shiftCents) }] : [];
  });
}

const listed = (numbers: readonly number[]): string =>
  numbers.length < 2
    ? `${numbers[0]}`
    : `${numbers.slice(0, -1).join(", ")} and ${numbers[numbers.length - 1]}`;
