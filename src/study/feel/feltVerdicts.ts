/**
 * What modelled lips and stream say to the trade's rule of thumb: firmer slots, more resistance. The doubt of what lips do
 * is its range over lip parameters nobody can measure; that of the stream, the gap's bounds, and the ordinary spread of what is assumed. Resistance is two things, always
 * named: the stream's pressure drop, and the mouth pressure the lips need to begin.
 */
import { FELT_PERCENT } from "../blown/resistanceChange.ts";
import type { ResistanceChangeLike } from "../blown/resistanceLike.ts";
import { judge } from "../change/judgement.ts";
import {
  type Change,
  combined,
  type Evidence,
  type Finding,
  findingFor,
  type Test,
} from "../change/verdicts.ts";
import type { Change as LipChange, NoteChange, SlotChange } from "./slotChange.ts";

/** Firmer slots, from the reference gap to the chosen one. */
export function slotEvidence(change: SlotChange): Evidence {
  const asked = change.chosenGapMm > change.referenceGapMm ? 1 : -1;
  const changes = noteChanges(change, ({ slotWidthCents }) => slotWidthCents, 1);
  const mean = change.slotWidthCents;
  if (changes.length === 0 || mean === null)
    return { finding: "not-possible", basis: { kind: "no-notes" }, tests: [] };
  const finding = slotWidthFinding(change, asked);
  const test: Test = {
    quantity: "hold",
    of: "note",
    changes,
    unit: "cents",
    threshold: change.feltCents,
    asked,
    finding,
  };
  const felt = (way: "firmer" | "looser") =>
    change.notes.filter((note) => note.finding === way).map(({ n }) => n);
  return {
    finding,
    basis: {
      kind: "lips",
      meanCents: mean.change,
      meanRangeCents: mean.range,
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
    basis: { kind: "stream-and-lips", equivalentBoreMm: flow.equivalentBoreMm.estimate },
  };
}

function resistances(flow: ResistanceChangeLike, slots: SlotChange, asked: 1 | -1): Evidence {
  const drop: Test = {
    quantity: "pressure-drop",
    litresPerMinute: flow.chosen.litresPerMinute,
    of: "whole",
    changes: [
      { n: 0, change: flow.changePercent.estimate, expanded: flow.expandedPercent, range: flow.rangePercent },
    ],
    unit: "%",
    threshold: flow.thresholdPercent,
    asked,
    finding: flow.finding,
  };
  const thresholds = noteChanges(slots, ({ threshold }) => threshold, 100);
  const lips: Test[] =
    thresholds.length === 0
      ? []
      : [
          {
            quantity: "starting-pressure",
            of: "note",
            changes: thresholds,
            unit: "%",
            threshold: FELT_PERCENT,
            asked,
            finding: thresholdFinding(thresholds, asked),
          },
        ];
  const finding = combined([drop, ...lips].map((test) => test.finding));
  return { finding, basis: { kind: "stream-and-lips" }, tests: [drop, ...lips] };
}

/**
 * The study judges the mean over the notes, and whether notes go both ways. Single notes that can be felt are no firmer
 * instrument: they agree in part.
 */
function slotWidthFinding({ finding, notes }: SlotChange, asked: 1 | -1): Finding {
  const rule = asked > 0 ? "firmer" : "looser";
  switch (finding) {
    case "firmer":
    case "looser":
      return finding === rule ? "agrees" : "disagrees";
    case "both-ways":
      return "agrees-in-part";
    case "too-small":
      if (notes.some((note) => note.finding === rule)) return "agrees-in-part";
      return notes.some((note) => note.finding === "firmer" || note.finding === "looser")
        ? "disagrees"
        : "too-small";
    default:
      return "unknown";
  }
}

/** A note counts where all lips tried say so, by what can be felt. */
const thresholdFinding = (changes: readonly Change[], asked: 1 | -1): Finding =>
  combined(
    changes.map(({ change, range = [change, change] }) =>
      findingFor(judge(change, FELT_PERCENT, { tried: range }), asked),
    ),
  );

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
