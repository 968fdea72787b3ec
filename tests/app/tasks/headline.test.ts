import { expect, test } from "vitest";
import { headline } from "../../../src/app/tasks/explore/headline.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { SAME_GAP } from "../../../src/study/change/verdicts.ts";
import type { Felt } from "../../../src/study/feel/felt.ts";
import type { SlotWidthFinding } from "../../../src/study/feel/slotChange.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const explored = new Exploration(setup).explore(5.04, 2.5, 4);
const felt = (...findings: SlotWidthFinding[]): Felt => ({
  slots: SAME_GAP,
  resistance: SAME_GAP,
  change: {
    referenceGapMm: 2.5,
    chosenGapMm: 5.04,
    feltCents: 3.5,
    slotWidthCents: null,
    finding: null,
    notes: findings.map((finding, i) => ({
      n: i + 2,
      slotWidthCents: null,
      pull: null,
      margin: null,
      threshold: null,
      finding,
    })),
  },
});
const holds = (of: Felt | null) => headline({ explored, retuned: null, felt: of, setup, unit: "mm" }).holds;

test("the headline names the notes whose slots change enough to feel, both ways, and is silent otherwise", () => {
  expect(holds(felt("firmer", "too-small", "looser", "looser"))).toBe(
    "On modelled lips low C (2) holds firmer, C in the staff (4), E (5) hold looser: enough to feel.",
  );
  expect(holds(felt("too-small", "depends-on-lips"))).toBeNull();
  expect(holds(null)).toBeNull();
});

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
  expect(said(5.04)).toMatchObject({
    remains: "What remains after retuning is worked out for gaps up to 4.00 mm · 0.157 in.",
    finding: null,
  });
  expect(said(4).remains).toMatch(/^With C in the staff \(4\) tuned back, .* cents remain:$/);
  expect(said(4).finding).not.toBeNull();
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
  const said = (of: Setup, chosenGapMm = 5.04) => {
    const exploration = new Exploration(of);
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
