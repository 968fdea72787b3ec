/** What the comparison says: how far the drawings are apart, what a lathe's error does to each, and who wins by which goal. */
import type { Shown } from "../../src/app/tasks/compare/comparedCandidates.ts";
import { scoreOf } from "../../src/app/tasks/compare/comparedCandidates.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { knownQuantities } from "../../src/study/compare/compareQuantities.ts";
import { parseGoal } from "../../src/study/compare/goal.ts";
import type { ComparedVariant } from "../../workers/instrument/compare.ts";
import { demo } from "../paper/demo.ts";
import { drawings } from "./leadpipes.ts";

const known = knownQuantities(12);
const isPlayed = ({ n }: { readonly n: number }): boolean => n >= PLAYED[0] && n <= PLAYED[1];

/** The answers beside the drawings they are of. */
export const shownOf = (answers: readonly ComparedVariant[]): readonly Shown[] =>
  answers.map((answer, i) => ({ number: i + 1, name: drawings[i].name, answer }));

export interface Apart {
  readonly n: number;
  readonly cents: number;
}

/** The played resonance that lies farthest from the first drawing's, both tuned alike. */
export const farthest = ({ answer }: Shown): Apart =>
  largest(
    (answer.retuned?.modes ?? answer.modes)
      .filter(isPlayed)
      .map(({ n, shiftCents }) => ({ n, cents: shiftCents })),
  );

/** What an error of the bore does at the place where it does most to any played resonance. */
export const worstBump = ({ answer }: Shown, errorMm: number): Apart & { readonly positionMm: number } =>
  largest(
    answer.worst
      .filter(isPlayed)
      .map(({ n, place, centsPerMm }) => ({ n, positionMm: place.positionMm, cents: centsPerMm * errorMm })),
  );

/** The same where the whole leadpipe is as much too wide: all its bumps together. */
export function tooWide({ answer }: Shown, errorMm: number): Apart | null {
  const { sensitivity } = answer;
  if (!sensitivity) return null;
  return largest(
    sensitivity.modes.filter(isPlayed).map(({ n, centsPerMm }) => ({
      n,
      cents:
        errorMm *
        sensitivity.places.reduce((sum, { part }, i) => sum + (part === "leadpipe" ? centsPerMm[i] : 0), 0),
    })),
  );
}

function largest<One extends Apart>(all: readonly One[]): One {
  return all.reduce((most, one) => (Math.abs(one.cents) > Math.abs(most.cents) ? one : most));
}

export const WISHES = {
  tune: {
    words: "the notes of a call in tune: 2 to 8 near one harmonic series",
    goal: "2:1, 3:1, 4:1, 5:1, 6:1, 7:1, 8:1",
    unit: "cents",
    feltFrom: demo.thresholds.cents,
    digits: 1,
  },
  tall: {
    words: "tall peaks where most is played: the mean of 3 to 6",
    goal: "-mean(height3, height4, height5, height6)",
    unit: "dB",
    feltFrom: demo.thresholds.decibels,
    digits: 2,
  },
  firm: {
    words: "wide slots: the mean slot width of notes 4 to 8",
    goal: "-mean(hold4, hold5, hold6, hold7, hold8)",
    unit: "cents of the lips",
    feltFrom: demo.thresholds.cents,
    digits: 1,
  },
  low: {
    words: "a firm bottom: tall peaks 2 and 3",
    goal: "-mean(height2, height3)",
    unit: "dB",
    feltFrom: demo.thresholds.decibels,
    digits: 2,
  },
} as const;
export type Wish = keyof typeof WISHES;

export interface Ranked {
  readonly number: number;
  readonly name: string;
  readonly score: number;
}

export interface Ranking {
  readonly wish: Wish;
  /** The best first. */
  readonly ranked: readonly Ranked[];
  /** What the first is ahead of the second by, and of the last. */
  readonly lead: number;
  readonly span: number;
}

/** The lower a goal's value, the better; what cannot be brought to pitch is left out. */
export function rankingBy(shown: readonly Shown[], wish: Wish): Ranking {
  const goal = parseGoal(WISHES[wish].goal, known);
  const ranked = shown
    .flatMap((one) => {
      const score = scoreOf(one, goal);
      return score === null ? [] : [{ number: one.number, name: one.name, score }];
    })
    .sort((a, b) => a.score - b.score);
  return {
    wish,
    ranked,
    lead: ranked[1].score - ranked[0].score,
    span: ranked[ranked.length - 1].score - ranked[0].score,
  };
}

/** In words: whether the lead could be noticed. */
export function leadInWords({ wish, ranked, lead, span }: Ranking): string {
  const { unit, feltFrom, digits } = WISHES[wish];
  const [first, second] = ranked;
  const by = (value: number) => `${value.toFixed(digits)} ${unit}`;
  const felt = `${feltFrom} ${unit} that could be felt`;
  if (span < feltFrom)
    return `Between the best and the worst lie ${by(span)}, less than the ${felt}: by this wish there is nothing to choose.`;
  if (lead < feltFrom)
    return `${first.name} leads ${second.name} by ${by(lead)}, which is too small to notice; the last of the three is ${by(span)} behind.`;
  return `${first.name} leads by ${by(lead)}, more than the ${felt}.`;
}

/**
 * Whether the first two keep their order by tune with an error at the worst place of each: no note then goes farther than that
 * error's most, the common series no farther, and so the mean of their distances by twice as much at most.
 */
export function orderHolds(shown: readonly Shown[], { ranked, lead }: Ranking, errorMm: number): boolean {
  const [first, second] = ranked.map(({ number }) => Math.abs(worstBump(shown[number - 1], errorMm).cents));
  return lead > 2 * (first + second);
}
