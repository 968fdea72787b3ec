import { expect, test } from "vitest";
import { headline } from "../../src/app/explore/headline.ts";
import { Exploration } from "../../src/study/exploration.ts";
import type { Felt } from "../../src/study/felt.ts";
import type { HoldFinding } from "../../src/study/slotChange.ts";
import { SAME_GAP } from "../../src/study/verdicts.ts";
import { demo } from "../acoustics/setups.ts";

const setup = demo();
const explored = new Exploration(setup).explore(5.04, 2.5, 4);
const felt = (...findings: HoldFinding[]): Felt => ({
  slots: SAME_GAP,
  resistance: SAME_GAP,
  change: {
    referenceGapMm: 2.5,
    chosenGapMm: 5.04,
    feltCents: 3.5,
    holdCents: null,
    finding: null,
    notes: findings.map((finding, i) => ({
      n: i + 2,
      holdCents: null,
      pull: null,
      margin: null,
      threshold: null,
      finding,
    })),
  },
});
const holds = (of: Felt | null) =>
  headline({ explored, retuned: null, felt: of, thresholds: setup.thresholds, unit: "mm" }).holds;

test("the headline names the notes whose slots change enough to feel, both ways, and is silent otherwise", () => {
  expect(holds(felt("firmer", "too small to feel", "looser", "looser"))).toBe(
    "On modelled lips note 2 holds firmer, notes 4 and 5 hold looser: enough to feel.",
  );
  expect(holds(felt("too small to feel", "depends on the lips"))).toBeNull();
  expect(holds(null)).toBeNull();
});
