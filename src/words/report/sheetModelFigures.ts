/** What the model found, as figures of a printed sheet: shifts, heights and spacings of the played resonances, verdicts. */

import { instrumentOf } from "../../setup/instrumentOf.ts";
import { retunedPitch } from "../../study/change/retunedPitch.ts";
import { isPlayed, PLAYED } from "../../study/change/verdicts.ts";
import { CLAIMS, type Claim, claimEvidence, type SheetRecord } from "../../study/report/sheetRecord.ts";
import { type SheetResonance, sheetResonances } from "../../study/report/sheetResonances.ts";
import type { ModeUncertainty, Uncertain } from "../../study/uncertainty/changeUncertainty.ts";
import { noteText } from "../instruments.ts";
import { signed } from "../numbers.ts";
import { evidenceWords } from "../verdicts/evidence.ts";
import { FINDING } from "../verdicts/findings.ts";
import {
  backpressureSentence,
  pitchSentence,
  remainsSentence,
  slottingSentence,
} from "../verdicts/headline.ts";
import type { Figure, FigureGroup } from "./sheetFigure.ts";

const QUANTITIES = [
  ["shift", "pitch shift of", ({ shiftCents }) => shiftCents, "cents", 1],
  ["retuned", "what remains of it after retuning, of", ({ retunedCents }) => retunedCents, "cents", 1],
  ["height", "change of peak height of", ({ heightDb }) => heightDb, "dB", 2],
  ["spacing", "change of the spacing above", ({ spacingCents }) => spacingCents, "cents", 1],
] as const satisfies readonly (readonly [
  string,
  string,
  (one: SheetResonance) => number | null,
  string,
  number,
])[];

const RULES: Readonly<Record<Claim, string>> = {
  slots: "firmer slots",
  resistance: "more resistance",
  noGap: "no gap, freer",
};

/** The figures that the model gives: shifts, heights, what remains retuned, verdicts. */
export function modelFigures(record: SheetRecord): readonly Figure[] {
  const { setup, retuned, explored, felt } = record;
  const resonances = sheetResonances(record);
  const instrument = instrumentOf(setup);
  const of = (
    group: FigureGroup,
    name: string,
    what: string,
    text: string | null,
    value: number | null = null,
  ): Figure => ({
    group,
    name,
    what,
    value,
    text: text ?? (record.isWorking ? "being worked out" : "not worked out"),
    isWaiting: text === null && record.isWorking,
  });
  const ofResonances = QUANTITIES.flatMap(([name, what, quantity, unit, digits]) => {
    const known = resonances?.flatMap((one) => quantity(one) ?? []) ?? [];
    const [low, high] = [Math.min(...known), Math.max(...known)].map((value) => signed(value, digits));
    const range = known.length === 0 ? null : low === high ? `${low} ${unit}` : `${low} to ${high} ${unit}`;
    const whole = of(
      "resonances",
      `${name}Range`,
      `${what} ${noteText(PLAYED[0], instrument)} to ${noteText(PLAYED[1], instrument)}`,
      range,
    );
    const single = numbers.map((n) => {
      const one = resonances?.find((resonance) => resonance.n === n);
      const value = one ? quantity(one) : null;
      const text = value === null ? (known.length > 0 ? "none" : null) : `${signed(value, digits)} ${unit}`;
      return of("resonances", `${name}${n}`, `${what} ${noteText(n, instrument)}`, text, value);
    });
    return [whole, ...single];
  });
  const most = (pick: (mode: ModeUncertainty) => Uncertain | null): number | null =>
    explored?.uncertainty
      ? Math.max(0, ...explored.uncertainty.modes.filter(isPlayed).map((mode) => pick(mode)?.expanded ?? 0))
      : null;
  const uncertain = (name: string, what: string, value: number | null, unit: string) =>
    of(
      "resonances",
      name,
      what,
      value === null ? null : value === 0 ? "not stated" : `±${value.toPrecision(1)} ${unit}`,
      value,
    );
  return [
    ...ofResonances,
    of(
      "resonances",
      "tunedBack",
      "the note that the slide brings back",
      retuned?.retune == null ? null : noteText(retuned.retune, instrument),
      retuned?.retune,
    ),
    uncertain(
      "shiftUncertainty",
      "how well the shifts are known (95 %)",
      most(({ shiftCents }) => shiftCents),
      "cents",
    ),
    uncertain(
      "heightUncertainty",
      "how well the heights are known (95 %)",
      most(({ heightDb }) => heightDb),
      "dB",
    ),
    ...(
      [
        ["feltCents", "cents", "the smallest shift a player is assumed to notice"],
        ["feltDecibels", "dB", "the smallest change of height a player is assumed to notice"],
      ] as const
    ).map(([name, unit, what]) => {
      const value = setup.thresholds[unit === "dB" ? "decibels" : "cents"];
      return of("resonances", name, what, `${value} ${unit}`, value);
    }),
    of("verdicts", "pitchFound", "what the change does to pitch, in a sentence", pitchFound(record)),
    of(
      "verdicts",
      "slottingFound",
      "what it does to slotting, in a sentence",
      felt && slottingSentence(felt.slots, instrument),
    ),
    of(
      "verdicts",
      "backpressureFound",
      "what it does to backpressure, in a sentence",
      felt && backpressureSentence(felt.resistance),
    ),
    ...CLAIMS.flatMap((claim) => {
      const { main = null, peaks = null } = claimEvidence(record, claim) ?? {};
      const what = `“${RULES[claim]}”`;
      return [
        of("verdicts", `${claim}Finding`, `${what}: what the model says`, main && FINDING[main.finding]),
        of("verdicts", `${claim}Numbers`, `${what}: its numbers`, main && evidenceWords(main, instrument)),
        of(
          "verdicts",
          `${claim}Peaks`,
          `${what}: what the peaks alone say`,
          peaks ? FINDING[peaks.finding] : main ? "nothing" : null,
        ),
      ];
    }),
  ];
}

/** Pitch before and after the slide is set again, and whether a player would notice what remains. */
function pitchFound(record: SheetRecord): string | null {
  const { explored, retuned, setup, unit, isWorking } = record;
  if (!explored) return null;
  const shifts = explored.changes.filter(isPlayed).map(({ shiftCents }) => shiftCents);
  const pitch = pitchSentence(explored.chosen.gapMm - explored.reference.gapMm, shifts, unit);
  const left = retunedPitch(explored, retuned, setup.thresholds);
  if (!left) return isWorking ? null : `${pitch}.`;
  const { said, verdict } = remainsSentence(left, instrumentOf(setup));
  return `${pitch}; ${said}. ${verdict}`;
}

const numbers = Array.from({ length: PLAYED[1] - PLAYED[0] + 1 }, (_, i) => PLAYED[0] + i);
