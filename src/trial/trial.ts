/** A blind playing trial as it is kept: what is played, in which sealed order, and what the player said of each turn. */

/** A gap, or a shank or an instrument by its name. */
export interface TrialItem {
  /** Empty where the gap is its name. */
  readonly name: string;
  readonly gapMm: number | null;
}

/** What the player rates after each turn (by the names of older files: slotting is `hold`, blowing `ease`), from 0 to `TOP`. */
export const SCALES = ["hold", "ease", "evenness", "preference"] as const;
export type Scale = (typeof SCALES)[number];
export const TOP = 100;

/** null: not said yet. */
export type Ratings = Readonly<Record<Scale, number | null>>;
export const UNRATED: Ratings = { hold: null, ease: null, evenness: null, preference: null };

/** One item mounted and played once. */
export interface Turn {
  /** All that player and listener know of it before the trial is opened. */
  readonly code: string;
  /** Place among the trial's items. */
  readonly item: number;
  readonly ratings: Ratings;
  readonly remark: string;
}

/** What may be measured at every turn. */
export const MEASURED_DECISIONS = ["slot", "slur", "attack"] as const;
export type MeasuredDecision = (typeof MEASURED_DECISIONS)[number];

export interface Trial {
  /** What recordings are kept under. */
  readonly id: string;
  readonly player: string;
  readonly items: readonly TrialItem[];
  /** What is played at every turn. */
  readonly passages: string;
  /** Of preference, in points: what was said beforehand to matter. */
  readonly difference: number;
  /** Played by one person alone, from envelopes: until it is opened, the item of a turn is the place of an envelope. */
  readonly alone?: true;
  /** What was said beforehand to decide it, where that is measured and not preference. */
  readonly decidedBy?: MeasuredDecision;
  /** In playing order: every item once in each repeat, repeat after repeat. */
  readonly turns: readonly Turn[];
  /** Whether the codes are known by now, and whether that was before all was rated. */
  readonly opened: "sealed" | "complete" | "early";
  /** When the codes were opened, ISO 8601, UTC; absent: they were not, or by a version of the page that did not note it. */
  readonly openedAt?: string;
}

/** Whether the codes are open: nothing of the trial changes any more. */
export const isFinished = ({ opened }: Trial): boolean => opened !== "sealed";

export const FEWEST_ITEMS = 3;
export const MOST_ITEMS = 7;
export const FEWEST_REPEATS = 2;
export const MOST_REPEATS = 14;

/** Whether a turn is rated on every scale. */
export const isRated = ({ ratings }: Turn): boolean => SCALES.every((scale) => ratings[scale] !== null);

/** How often each item is played. */
export const repeatsOf = ({ items, turns }: Trial): number => turns.length / items.length;

/** One scale's ratings, a row a repeat and a column an item; repeats that are not wholly rated are left out. */
export function ratingBlocks({ items, turns }: Trial, scale: Scale): number[][] {
  const blocks: number[][] = [];
  for (let first = 0; first < turns.length; first += items.length) {
    const repeat = turns.slice(first, first + items.length);
    if (!repeat.every(isRated)) continue;
    blocks.push(items.map((_, i) => repeat.find(({ item }) => item === i)!.ratings[scale]!));
  }
  return blocks;
}
