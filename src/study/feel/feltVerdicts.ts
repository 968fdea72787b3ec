/**
 * What modelled lips and stream say to the trade's rule of thumb: firmer slots, more resistance. The doubt of what lips do
 * is its range over lip parameters nobody can measure; that of the stream, the gap's bounds. Resistance is two things, always
 * named: the stream's pressure drop, and the mouth pressure the lips need to begin.
 */
import { formatLength } from "../../units/formatLength.ts";
import { FELT_PERCENT, type ResistanceChange, type ResistanceFinding } from "../blown/resistanceChange.ts";
import { judge } from "../change/judgement.ts";
import {
  type Change,
  combined,
  type Evidence,
  extremes,
  type Finding,
  findingFor,
  signed,
  type Test,
} from "../change/verdicts.ts";
import type { Change as LipChange, NoteChange, SlotChange } from "./slotChange.ts";

/** Where nothing is large enough, a computation ends and a player begins. */
const ONLY_A_TRIAL = "Whether this player feels it, only a blind trial can tell.";

/** Firmer slots, from the reference gap to the chosen one. */
export function slotEvidence(change: SlotChange): Evidence {
  const asked = change.chosenGapMm > change.referenceGapMm ? 1 : -1;
  const changes = noteChanges(change, ({ holdCents }) => holdCents, 1);
  const mean = change.holdCents;
  if (changes.length === 0 || mean === null)
    return { finding: "not possible here", model: "No note can be started with these lips.", tests: [] };
  const finding = holdFinding(change, asked);
  const test: Test = {
    name: "hold of each note",
    of: "note",
    changes,
    unit: "cents",
    threshold: change.feltCents,
    asked,
    finding,
  };
  const felt = (["firmer", "looser"] as const).flatMap((way) => {
    const notes = change.notes.filter((note) => note.finding === way).map(({ n }) => n);
    return notes.length > 0 ? [`${way} on note${notes.length > 1 ? "s" : ""} ${notes.join(", ")}`] : [];
  });
  const overLips = `${span(mean.range, 1)} over the lips tried`;
  const model =
    `Hold ${spanOf(test, 1)} cents, ${signed(mean.change, 1)} on average (${overLips}; felt from ${change.feltCents} cents` +
    `${felt.length > 0 ? `: ${felt.join("; ")}` : ""}). ` +
    `${besides(change)}`;
  return { finding, model: trialAfter(finding, model), tests: [test] };
}

/** More resistance, from the reference gap to the chosen one. */
export const resistanceEvidence = (flow: ResistanceChange, slots: SlotChange): Evidence =>
  resistances(flow, slots, slots.chosenGapMm > slots.referenceGapMm ? 1 : -1);

/** Less of it, from the reference gap to none, and which larger bore would do the same. */
export function closedEvidence(flow: ResistanceChange, slots: SlotChange): Evidence {
  const evidence = resistances(flow, slots, -1);
  const bore = flow.equivalentBoreMm.estimate;
  const asBore =
    bore === null
      ? "No change of the leadpipe's bore does as much."
      : Math.abs(bore) < 0.005
        ? "To the stream the bore is as it was."
        : `To the stream as if the leadpipe were ${bothUnits(Math.abs(bore))} ${bore > 0 ? "wider" : "narrower"} all along.`;
  return { ...evidence, model: `${asBore} ${evidence.model}` };
}

const bothUnits = (mm: number): string => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;

function resistances(flow: ResistanceChange, slots: SlotChange, asked: 1 | -1): Evidence {
  const drop: Test = {
    name: `flow: pressure drop at ${flow.chosen.litresPerMinute} L/min`,
    of: "whole",
    changes: [{ n: 0, change: flow.changePercent.estimate, expanded: null, range: flow.rangePercent }],
    unit: "%",
    threshold: flow.thresholdPercent,
    asked,
    finding: FLOW_FINDINGS[flow.finding],
  };
  const thresholds = noteChanges(slots, ({ threshold }) => threshold, 100);
  const lips: Test[] =
    thresholds.length === 0
      ? []
      : [
          {
            name: "lips: pressure at which each note starts",
            of: "note",
            changes: thresholds,
            unit: "%",
            threshold: FELT_PERCENT,
            asked,
            finding: thresholdFinding(thresholds, asked),
          },
        ];
  const finding = combined([drop, ...lips].map((test) => test.finding));
  const stream =
    `Flow: pressure drop ${signed(drop.changes[0].change, 2)} % at ${flow.chosen.litresPerMinute} L/min ` +
    `(${span(flow.rangePercent, 2)} % between the bounds).`;
  const [test] = lips;
  const valve = test
    ? ` Lips: threshold ${spanOf(test, 1)} % (${span(rangeOver(test), 1)} % over the lips tried).`
    : " Lips: no note starts at both gaps.";
  const model = `${stream}${valve} Felt from ${flow.thresholdPercent} %.`;
  return { finding, model: trialAfter(finding, model), tests: [drop, ...lips] };
}

const FLOW_FINDINGS: Readonly<Record<ResistanceFinding, Finding>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  "too small to feel": "too small to feel",
  "the bounds do not tell": "not known well enough",
  "same gap": "same gap",
};

/**
 * The study judges the mean over the notes, and whether notes go both ways. Single notes that can be felt are no firmer
 * instrument: they agree in part.
 */
function holdFinding({ finding, notes }: SlotChange, asked: 1 | -1): Finding {
  const rule = asked > 0 ? "firmer" : "looser";
  switch (finding) {
    case "firmer":
    case "looser":
      return finding === rule ? "agrees" : "disagrees";
    case "differs from note to note":
      return "agrees in part";
    case "too small to feel":
      if (notes.some((note) => note.finding === rule)) return "agrees in part";
      return notes.some((note) => note.finding === "firmer" || note.finding === "looser")
        ? "disagrees"
        : "too small to feel";
    default:
      return "not known well enough";
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

/** Pull and margin, which have no threshold of feeling. */
function besides(change: SlotChange): string {
  const said = (
    [
      ["pull", ({ pull }) => pull],
      ["margin", ({ margin }) => margin],
    ] as const satisfies readonly (readonly [string, (note: NoteChange) => LipChange | null])[]
  ).flatMap(([name, of]) => {
    const values = change.notes.flatMap((note) => of(note)?.change ?? []);
    return values.length > 0 ? [`${name} ${span([Math.min(...values), Math.max(...values)], 3)}`] : [];
  });
  const text = said.join(", ");
  return text && `${text[0].toUpperCase()}${text.slice(1)}.`;
}

const trialAfter = (finding: Finding, model: string): string =>
  finding === "too small to feel" || finding === "not known well enough" ? `${model} ${ONLY_A_TRIAL}` : model;

const span = ([low, high]: readonly [number, number], digits: number): string => {
  const [from, to] = [signed(low, digits), signed(high, digits)];
  return from === to ? from : `${from} to ${to}`;
};

const spanOf = (test: Test, digits: number): string => {
  const [low, high] = extremes(test);
  return span([low.change, high.change], digits);
};

const rangeOver = ({ changes }: Test): readonly [number, number] => [
  Math.min(...changes.map(({ change, range }) => range?.[0] ?? change)),
  Math.max(...changes.map(({ change, range }) => range?.[1] ?? change)),
];
