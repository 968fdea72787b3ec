/**
 * What modelled lips and stream say to the trade's rule of thumb: firmer slots, more resistance. The doubt of what lips do
 * is its range over lip parameters nobody can measure; that of the stream, the gap's bounds, and the ordinary spread of what is assumed. Resistance is two things, always
 * named: the stream's pressure drop, and the mouth pressure the lips need to begin.
 */
import type { Thresholds } from "../../setup/setup.ts";
import type { ResistanceChangeLike } from "../blown/resistanceLike.ts";
import {
  type Change,
  combined,
  type Evidence,
  HIGH_FROM,
  judgedTest,
  type ModelRange,
  type Test,
} from "../change/verdicts.ts";
import type { Change as LipChange, ModelChange, NoteChange, SlotChange } from "./slotChange.ts";

/** Firmer slots, from the reference gap to the chosen one. */
export function slotEvidence(change: SlotChange): Evidence {
  const asked = change.chosenGapMm > change.referenceGapMm ? 1 : -1;
  const changes = noteChanges(change, ({ slotWidthCents }) => slotWidthCents, 1);
  const mean = change.slotWidthCents;
  if (changes.length === 0 || mean === null)
    return { finding: "not-possible", basis: { kind: "no-notes" }, tests: [] };
  const test = judgedTest({
    quantity: "hold",
    of: "note",
    changes,
    together: { n: 0, change: mean.change, expanded: null, range: mean.range },
    doubt: "tried",
    unit: "cents",
    threshold: change.noticedCents,
    asked,
  });
  const felt = (way: "firmer" | "looser") =>
    change.notes.filter((note) => note.finding === way).map(({ n }) => n);
  return {
    finding: test.finding,
    basis: {
      kind: "lips",
      meanCents: mean.change,
      meanRangeCents: mean.range,
      byModel: byModel(change, ({ slotWidthCents }) => slotWidthCents, 1),
      firmer: felt("firmer"),
      looser: felt("looser"),
      pull: overNotes(change, ({ pull }) => pull),
      margin: overNotes(change, ({ margin }) => margin),
    },
    tests: [test],
  };
}

/** More resistance, from the reference gap to the chosen one. */
export const resistanceEvidence = (flow: ResistanceChangeLike, slots: SlotChange): Evidence =>
  resistances(flow, slots, slots.chosenGapMm > slots.referenceGapMm ? 1 : -1);

/** Less of it, from the reference gap to none, and which larger bore would do the same. */
export function closedEvidence(flow: ResistanceChangeLike, slots: SlotChange): Evidence {
  const evidence = resistances(flow, slots, -1);
  return {
    ...evidence,
    basis: {
      kind: "stream-and-lips",
      equivalentBoreMm: flow.equivalentBoreMm.estimate,
      startingByModel: startingByModel(slots),
    },
  };
}

function resistances(flow: ResistanceChangeLike, slots: SlotChange, asked: 1 | -1): Evidence {
  const drop = judgedTest({
    quantity: "pressure-drop",
    litresPerMinute: flow.chosen.litresPerMinute,
    of: "whole",
    changes: [
      { n: 0, change: flow.changePercent.estimate, expanded: flow.expandedPercent, range: flow.rangePercent },
    ],
    doubt: "bounds",
    unit: "%",
    threshold: flow.thresholdPercent,
    asked,
  });
  const tests = [drop, ...startingPressure(slots, flow.thresholdPercent, asked)];
  return {
    finding: combined(tests.map((test) => test.finding)),
    basis: { kind: "stream-and-lips", startingByModel: startingByModel(slots) },
    tests,
  };
}

const startingPressure = (slots: SlotChange, threshold: number, asked: Test["asked"]): Test[] =>
  onLips(
    "starting-pressure",
    noteChanges(slots, ({ threshold: onset }) => onset, 100),
    "%",
    threshold,
    asked,
  );

/**
 * Too wide locks on the wrong note and is hard to move about on: with the lips as far off as players are assumed to notice in
 * a slot's width, the pitch would follow less; and the next note would need less pressure.
 */
export function tooWideEvidence(change: SlotChange, thresholds: Thresholds): Evidence {
  const asked = widening(change) > 0 ? -1 : 1;
  return lipEvidence([
    ...onLips(
      "bend",
      noteChanges(change, ({ pull }) => pull, thresholds.slotCents),
      "cents",
      thresholds.cents,
      asked,
    ),
    ...onLips(
      "margin",
      noteChanges(change, ({ marginRatio }) => marginRatio, 100),
      "%",
      thresholds.pressurePercent,
      asked,
    ),
  ]);
}

/** Too narrow feels vague and loses core high up: the high notes' slots would get narrower as the gap closes. */
export function tooNarrowEvidence(change: SlotChange, thresholds: Thresholds): Evidence {
  const high = noteChanges(change, ({ slotWidthCents }) => slotWidthCents, 1).filter(
    ({ n }) => n >= HIGH_FROM,
  );
  return lipEvidence(onLips("high-hold", high, "cents", thresholds.slotCents, widening(change) > 0 ? 1 : -1));
}

/** Attack and response: whether the pressure at which notes start changes, either way. */
export function attackEvidence(change: SlotChange, thresholds: Thresholds): Evidence {
  const evidence = lipEvidence(startingPressure(change, thresholds.pressurePercent, 0));
  return evidence.basis.kind === "on-lips"
    ? { ...evidence, basis: { ...evidence.basis, startingByModel: startingByModel(change) } }
    : evidence;
}

const startingByModel = (change: SlotChange): readonly ModelRange[] =>
  byModel(change, ({ threshold }) => threshold, 100);

/** What each lip model by itself says, in a multiple of the study's unit; those that have nothing to say are left out. */
const byModel = (
  change: SlotChange,
  of: (one: ModelChange) => ModelRange["range"] | null,
  scale: number,
): readonly ModelRange[] =>
  change.byModel.flatMap((one) => {
    const range = of(one);
    return range ? [{ model: one.model, range: [scale * range[0], scale * range[1]] as const }] : [];
  });

const widening = ({ chosenGapMm, referenceGapMm }: SlotChange): number => chosenGapMm - referenceGapMm;

const lipEvidence = (tests: readonly Test[]): Evidence =>
  tests.length === 0
    ? { finding: "not-possible", basis: { kind: "no-notes" }, tests }
    : { finding: combined(tests.map(({ finding }) => finding)), basis: { kind: "on-lips" }, tests };

/** None where no note has the quantity. */
const onLips = (
  quantity: Test["quantity"],
  changes: readonly Change[],
  unit: Test["unit"],
  threshold: number,
  asked: Test["asked"],
): Test[] =>
  changes.length === 0
    ? []
    : [judgedTest({ quantity, of: "note", changes, doubt: "tried", unit, threshold, asked })];

const noteChanges = (
  { notes }: SlotChange,
  of: (note: NoteChange) => LipChange | null,
  scale: number,
): Change[] =>
  notes.flatMap((note) => {
    const change = of(note);
    if (!change) return [];
    const [low, high] = change.range;
    return [
      {
        n: note.n,
        change: scale * change.change,
        expanded: null,
        range: [scale * low, scale * high] as const,
      },
    ];
  });

/** Least and greatest change over the notes; null where no note has one. */
function overNotes(
  { notes }: SlotChange,
  of: (note: NoteChange) => LipChange | null,
): readonly [number, number] | null {
  const values = notes.flatMap((note) => of(note)?.change ?? []);
  return values.length > 0 ? [Math.min(...values), Math.max(...values)] : null;
}
