import { expect, test } from "vitest";
import { headline } from "../../../../src/app/tasks/explore/headline.ts";
import type { Setup } from "../../../../src/setup/setup.ts";
import { resistanceChangeLike } from "../../../../src/study/blown/resistanceLike.ts";
import { type Evidence, judgedTest, SAME_GAP } from "../../../../src/study/change/verdicts.ts";
import type { Felt } from "../../../../src/study/feel/felt.ts";
import { resistanceEvidence } from "../../../../src/study/feel/feltVerdicts.ts";
import type { SlotChange } from "../../../../src/study/feel/slotChange.ts";
import { Exploration } from "../../../../src/study/instrument/exploration.ts";
import { gapSweep } from "../../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../../src/study/instrument/instrument.ts";
import { demo } from "../../../acoustics/setups.ts";

const setup = demo();
const explored = new Exploration(setup).explore(5.04, 2.5, 4);
const slotting = (finding: Evidence["finding"], changes: readonly number[]): Evidence => ({
  finding,
  basis: {
    kind: "lips",
    byModel: [],
    meanCents: 25,
    meanRangeCents: [20, 30],
    firmer: finding === "mixed" ? [2] : [],
    looser: finding === "mixed" ? [4, 5] : [],
    pull: null,
    margin: null,
  },
  tests: [
    judgedTest({
      quantity: "hold",
      of: "note",
      changes: changes.map((change, i) => ({ n: i + 2, change, expanded: null })),
      doubt: "tried",
      unit: "cents",
      threshold: 20,
      asked: 1,
    }),
  ],
});
const felt = (slots: Evidence): Felt => ({
  slots,
  resistance: SAME_GAP,
  tooWide: SAME_GAP,
  tooNarrow: SAME_GAP,
  attack: SAME_GAP,
  change: null,
});
const onLips = (of: Felt | null) => headline({ explored, retuned: null, felt: of, setup, unit: "mm" }).onLips;

test("slotting is told from the finding that its card shows, and nothing while that is being worked out", () => {
  expect(onLips(felt(slotting("mixed", [30, 0, -30, -30])))).toEqual([
    "Slotting: no overall change. Firmer: low C (2); looser: C in the staff (4), E (5).",
  ]);
  expect(onLips(felt(slotting("agrees", [25, 25])))).toEqual([
    "Slotting: firmer on the whole, slots 25 cents wider on average. A player may notice.",
  ]);
  expect(onLips(felt(slotting("too-small", [4, -5])))).toEqual([
    "Slotting: no change a player is likely to notice. Some notes a little firmer, some a little looser.",
  ]);
  expect(onLips(felt(slotting("unknown", [40])))[0]).toMatch(/too uncertain to say/);
  expect(onLips(null)).toEqual([]);
});

test("backpressure: how much, what players are assumed to notice, starting pressures", () => {
  const change = slotChangeOf();
  const flow = resistanceChangeLike(setup, { gapMm: 5.04, referenceGapMm: 2.5 });
  const resistance = resistanceEvidence(flow, change);
  expect(onLips({ ...felt(SAME_GAP), resistance })).toEqual([
    "Backpressure: about 0.3 % more. Players are assumed to notice 10 %. Starting pressures change by 1.2 % at most.",
  ]);
});

/** Starting pressures of two notes, by 0.5 and 1.2 %. */
function slotChangeOf(): SlotChange {
  const note = (n: number, threshold: number) => ({
    n,
    slotWidthCents: null,
    pull: null,
    margin: null,
    marginRatio: null,
    threshold: { change: threshold, range: [threshold, threshold] as const },
    finding: null,
  });
  return {
    referenceGapMm: 2.5,
    chosenGapMm: 5.04,
    byModel: [],
    noticedCents: 20,
    slotWidthCents: null,
    finding: null,
    notes: [note(2, 0.005), note(3, -0.012)],
  };
}

test("beyond the gaps that the sweep reaches it says so, and within them what remains", () => {
  const retuned = gapSweep(new Instrument(setup, { modes: 10 }), {
    gapsMm: [0, 2.5, 4],
    referenceGapMm: 2.5,
    retune: 4,
  });
  const said = (chosenGapMm: number) =>
    headline({
      explored: new Exploration(setup).explore(chosenGapMm, 2.5, 4),
      retuned,
      felt: null,
      setup,
      unit: "mm",
    });
  expect(said(5.04).finding).toBeNull();
  expect(said(5.04).change).toMatch(
    /^Opening the gap by 2\.54 mm \(0\.100 in\) lowers pitch by .* cents\. What remains .* gaps up to 4\.00 mm · 0\.157 in\.$/,
  );
  expect(said(4).change).toMatch(/ cents; once the slide is set again at most \d\.\d remain\.$/);
  expect(said(4).finding).toBe("Unlikely to be noticed.");
});

test("of a stand-in it says whose gap was measured and between what the change lies on instruments like it", () => {
  // the demo is marked so: nobody has measured it
  const standIn = setup;
  expect(standIn.provenance).toEqual({
    mouthpiece: "assumed",
    receiver: "assumed",
    leadpipe: "assumed",
    body: "assumed",
  });
  const drawn = { ...setup, provenance: {} };
  const gapKnown = {
    ...standIn,
    provenance: {
      ...standIn.provenance,
      "receiver.depth": "measured",
      "mouthpiece.insertion": "measured",
    } as const,
  };
  const explorations = new Map<Setup, Exploration>();
  const said = (of: Setup, chosenGapMm = 5.04) => {
    const exploration = explorations.get(of) ?? new Exploration(of);
    explorations.set(of, exploration);
    exploration.explore(chosenGapMm, 2.5, 4);
    const known = exploration.explore(chosenGapMm, 2.5, 4);
    return headline({ explored: known, retuned: null, felt: null, setup: of, unit: "mm" });
  };
  expect(said(drawn).standIn).toBeNull();
  const { standIn: words, heldAgainst } = said(gapKnown);
  const range =
    /^Gap measured to ±0\.07 mm; the rest is a stand-in; on instruments like it the change is (−\d+\.\d) to (.\d+\.\d) cents \(95 %\)\.$/;
  expect(words).toMatch(range);
  const [low, high] = words!
    .match(range)!
    .slice(1)
    .map((text) => Number(text.replace("−", "-")));
  const shifts = explored.changes.filter(({ n }) => n >= 2 && n <= 10).map(({ shiftCents }) => shiftCents);
  // wider than what one instrument's resonances do between them
  expect(low).toBeLessThan(Math.min(...shifts));
  expect(high).toBeGreaterThan(Math.max(...shifts));
  expect(heldAgainst).not.toBe(said(drawn).heldAgainst);
  expect(said(gapKnown, 2.5).standIn).toBe("Gap measured to ±0.07 mm; the rest is a stand-in.");
  expect(said(standIn).standIn).toMatch(
    /^The gap is assumed, not measured; the rest is a stand-in; on instruments like it/,
  );
});
