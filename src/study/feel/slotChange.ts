/**
 * What a change of gap does to slot width, pull and margin, and how far that depends on lips nobody can measure: the change is
 * computed again with each lip parameter, and the pressure, at either end of its range, one at a time, and so again with the
 * other lip model. Both gaps always have the same lips and pressures.
 */
import { DEFAULT_LIPS, LIP_PARAMETERS } from "../../lips/lips.ts";
import { DEFAULT_TWO_WAY_LIPS, TWO_WAY_PARAMETERS } from "../../lips/twoWayLips.ts";
import { isTwoWay, type Lips } from "../../lips/valve.ts";
import { type Judgement, judge } from "../change/judgement.ts";
import type { LipModelName } from "../change/verdicts.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { type GapSlots, type NoteSlot, type Pressure, type SlotOptions, SOFTLY, slotSteps } from "./slots.ts";

/** Multiples of the threshold the change is looked at again with: own judgement. */
const PRESSURE_RANGE = [1.1, 1.7] as const;

/** A change from the reference gap to the chosen one, and its least and greatest over all lips tried. */
export interface Change {
  readonly change: number;
  readonly range: readonly [low: number, high: number];
}

type Range = readonly [low: number, high: number];

/** What one lip model alone says, over its own parameters: of all notes together, and of any. */
export interface ModelChange {
  readonly model: LipModelName;
  /** Of the mean slot width, cents; null where no note has a slot at both gaps. */
  readonly slotWidthCents: Range | null;
  /** Of any note's starting pressure, relative; null where none starts at both gaps. */
  readonly threshold: Range | null;
}

export type SlotWidthFinding = "firmer" | "looser" | "too-small" | "depends-on-lips" | "both-ways";

export interface NoteChange {
  readonly n: number;
  /** null where the note has no slot at one of the gaps with the lips as they are. */
  readonly slotWidthCents: Change | null;
  readonly pull: Change | null;
  readonly margin: Change | null;
  /** Of the margin, relative. */
  readonly marginRatio: Change | null;
  /** Of the lowest threshold, relative. */
  readonly threshold: Change | null;
  /** On its slot width: firmer or looser only where all lips tried say so, by what can be felt. */
  readonly finding: SlotWidthFinding | null;
}

export interface SlotChange {
  readonly referenceGapMm: number;
  readonly chosenGapMm: number;
  readonly notes: readonly NoteChange[];
  /** Mean change of slot width over the notes, cents; null where no note has one. */
  readonly slotWidthCents: Change | null;
  /** Each lip model by itself, one mass first. */
  readonly byModel: readonly ModelChange[];
  /** Smallest change of slot width a player is assumed to notice, cents of lip frequency. */
  readonly noticedCents: number;
  /** On the mean; both-ways also where single notes change so that it would be noticed and all together do not. */
  readonly finding: SlotWidthFinding | null;
}

/** After every set of lips: how many are done of how many, and once all are, the change. */
export interface SlotChangeStep {
  readonly done: number;
  readonly of: number;
  readonly change: SlotChange | null;
}

/** What another gap does to every note's slot width and pull; a step after every set of lips, the last with the answer. */
export function* slotChangeSteps(
  instrument: Instrument,
  chosenGapMm: number,
  options: SlotOptions = {},
): Generator<SlotChangeStep, void, void> {
  const { lips = DEFAULT_LIPS, pressure = SOFTLY, referenceGapMm = instrument.gapMm } = options;
  const tried = variants(lips, pressure);
  const differences: Difference[][] = [];
  for (const variant of tried) {
    const { model: _, ...asked } = variant;
    const [from, to] = slotSteps(instrument, [referenceGapMm, chosenGapMm], { ...asked, referenceGapMm });
    differences.push(between(from, to));
    const done = differences.length;
    const last = done === tried.length;
    yield {
      done,
      of: tried.length,
      change: last
        ? changeOf(differences, {
            referenceGapMm,
            chosenGapMm,
            byModel: (["one-mass", "two-way"] as const).map((model) =>
              modelChange(
                model,
                differences.filter((_, i) => tried[i].model === model),
              ),
            ),
            noticedCents: instrument.setup.thresholds.slotCents,
          })
        : null,
    };
  }
}

/** The same at once. */
export function slotChange(instrument: Instrument, chosenGapMm: number, options?: SlotOptions): SlotChange {
  let change: SlotChange | null = null;
  for (const step of slotChangeSteps(instrument, chosenGapMm, options)) change = step.change;
  return change!;
}

interface Variant extends Required<Pick<SlotOptions, "lips" | "pressure">> {
  readonly model: LipModelName;
}

/** The lips as they are, then each parameter at the ends of its range, then the pressure, then the other model's likewise. */
function variants(lips: Lips, pressure: Pressure): Variant[] {
  const of = (one: Lips): Variant => ({ model: isTwoWay(one) ? "two-way" : "one-mass", lips: one, pressure });
  const otherPressures = PRESSURE_RANGE.map((factor) => ({
    ...of(lips),
    pressure: scaled(pressure, factor),
  }));
  const otherModel = isTwoWay(lips) ? DEFAULT_LIPS : DEFAULT_TWO_WAY_LIPS;
  return [
    of(lips),
    ...atTheEnds(lips).map(of),
    ...otherPressures,
    of(otherModel),
    ...atTheEnds(otherModel).map(of),
  ];
}

/** With each parameter at either end of its range. */
const atTheEnds = (lips: Lips): Lips[] =>
  Object.entries(isTwoWay(lips) ? TWO_WAY_PARAMETERS : LIP_PARAMETERS).flatMap(([name, { range }]) =>
    range.map((value) => ({ ...lips, [name]: value })),
  );

/** A multiple of the threshold is replaced, a pressure in pascals changed by as much as that is of the usual multiple. */
function scaled(pressure: Pressure, timesThreshold: number): Pressure {
  if ("timesThreshold" in pressure) return { timesThreshold };
  return { pascals: (pressure.pascals * timesThreshold) / SOFTLY.timesThreshold };
}

type Difference = { readonly n: number } & {
  readonly [Name in "slotWidthCents" | "pull" | "margin" | "marginRatio" | "threshold"]: number | null;
};

function between(from: GapSlots, to: GapSlots): Difference[] {
  return from.notes.flatMap((a) => {
    const b = to.notes.find(({ n }) => n === a.n);
    return b ? [difference(a, b)] : [];
  });
}

const difference = (a: NoteSlot, b: NoteSlot): Difference => ({
  n: a.n,
  slotWidthCents: less(a.slot?.slotWidthCents, b.slot?.slotWidthCents),
  pull: less(a.slot?.pull, b.slot?.pull),
  margin: less(a.slot?.margin, b.slot?.margin),
  marginRatio: a.slot?.margin && b.slot?.margin ? b.slot.margin / a.slot.margin - 1 : null,
  threshold: a.onset && b.onset && b.onset.mouthPressure / a.onset.mouthPressure - 1,
});

const less = (a: number | null | undefined, b: number | null | undefined): number | null =>
  a == null || b == null ? null : b - a;

function changeOf(
  differences: readonly (readonly Difference[])[],
  about: Pick<SlotChange, "referenceGapMm" | "chosenGapMm" | "byModel" | "noticedCents">,
): SlotChange {
  const [own] = differences;
  const over = (n: number, name: Exclude<keyof Difference, "n">): Change | null =>
    spread(differences.map((notes) => notes.find((note) => note.n === n)?.[name] ?? null));
  const slotWidthCents = spread(differences.map((notes) => mean(notes.map((note) => note.slotWidthCents))));
  const finding = (change: Change | null) =>
    change && SLOT_WIDTH_FINDINGS[judge(change.change, about.noticedCents, { tried: change.range })];
  const notes = own.map(({ n }): NoteChange => {
    const width = over(n, "slotWidthCents");
    return {
      n,
      slotWidthCents: width,
      pull: over(n, "pull"),
      margin: over(n, "margin"),
      marginRatio: over(n, "marginRatio"),
      threshold: over(n, "threshold"),
      finding: finding(width),
    };
  });
  const found = (what: SlotWidthFinding) => notes.some((note) => note.finding === what);
  const whole = finding(slotWidthCents);
  const isMixed = (found("firmer") && whole !== "firmer") || (found("looser") && whole !== "looser");
  return { ...about, notes, slotWidthCents, finding: isMixed ? "both-ways" : whole };
}

/** What one model's sets of lips say. */
const modelChange = (model: LipModelName, differences: readonly (readonly Difference[])[]): ModelChange => ({
  model,
  slotWidthCents: rangeOf(differences.map((notes) => mean(notes.map((note) => note.slotWidthCents)))),
  threshold: rangeOf(differences.flatMap((notes) => notes.map((note) => note.threshold))),
});

function rangeOf(values: readonly (number | null)[]): Range | null {
  const known = values.filter((value) => value !== null);
  return known.length > 0 ? [Math.min(...known), Math.max(...known)] : null;
}

/** The first is with the lips as they are; those that have no answer do not widen the range. */
function spread([own, ...others]: readonly (number | null)[]): Change | null {
  if (own === null) return null;
  const all = [own, ...others.filter((value) => value !== null)];
  return { change: own, range: [Math.min(...all), Math.max(...all)] };
}

function mean(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length ? known.reduce((sum, value) => sum + value, 0) / known.length : null;
}

const SLOT_WIDTH_FINDINGS: Readonly<Record<Judgement, SlotWidthFinding>> = {
  more: "firmer",
  less: "looser",
  "too-small": "too-small",
  unknown: "depends-on-lips",
};
