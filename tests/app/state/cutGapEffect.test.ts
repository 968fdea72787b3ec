import { expect, test } from "vitest";
import { gapEffect } from "../../../src/app/state/bench/gapEffect.ts";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const instrument = new Instrument(setup);
const sweep = gapSweep(instrument, { gapsMm: [0, 1, 2, 3, 4], referenceGapMm: 4 });
const question = { sweep, thresholds: setup.thresholds, unit: "mm" } as const;

test("what the model says of one gap in place of another does not depend on the sweep's reference", () => {
  const [from, to] = [instrument.modes(3), instrument.modes(1)].map((modes) =>
    modes.filter(({ n }) => n >= 2 && n <= 10),
  );
  const shifts = to.map(({ frequencyHz }, i) => cents(frequencyHz, from[i].frequencyHz));
  const heights = to.map(({ peakImpedance }, i) =>
    Math.abs(decibels(peakImpedance!, from[i].peakImpedance!)),
  );
  const words = gapEffect({ ...question, fromMm: 3, toMm: 1 })!;
  expect(words).toContain("Closing the gap by 2.00 mm (0.079 in) raises pitch by");
  expect(words).toContain(`${Math.min(...shifts).toFixed(1)} to ${Math.max(...shifts).toFixed(1)} cents`);
  expect(words).toContain(`at most ${Math.max(...heights).toFixed(2)} dB`);
  expect(gapEffect({ ...question, fromMm: 1, toMm: 3, unit: "in" })).toMatch(
    /^Opening the gap by 0\.079 in \(2\.00 mm\) lowers pitch/,
  );
});

test("between the gaps of the sweep it goes by a straight line, and says nothing beyond them", () => {
  expect(gapEffect({ ...question, fromMm: 2.5, toMm: 2 })).toMatch(/too small to notice/);
  expect(gapEffect({ ...question, fromMm: 3, toMm: 4.5 })).toBeNull();
  expect(
    gapEffect({ ...question, sweep: { ...sweep, rows: sweep.rows.slice(2) }, fromMm: 3, toMm: 1 }),
  ).toBeNull();
  expect(gapEffect({ ...question, sweep: { ...sweep, rows: [] }, fromMm: 3, toMm: 1 })).toBeNull();
});

test("what can be felt is counted by the player's own thresholds", () => {
  const words = gapEffect({
    ...question,
    fromMm: 0,
    toMm: 4,
    thresholds: { cents: 0.01, decibels: 10, slotCents: 20, pressurePercent: 10 },
  });
  expect(words).toMatch(/a player may notice on 9 of 9 notes \(just noticeable: 0\.01 cents, 10 dB\)/);
});
