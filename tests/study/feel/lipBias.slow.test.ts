/** How far from the resonances the usual lips sound on the demo, as the page says of either model. */
import { expect, it } from "vitest";
import { resonanceHz } from "../../../src/lips/modes.ts";
import { DEFAULT_LIPS, DEFAULT_TWO_WAY_LIPS, type Lips } from "../../../src/study/feel/lipParameters.ts";
import { MODAL_COUNT, modalColumn } from "../../../src/study/feel/modalColumn.ts";
import { slotsAt } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../../acoustics/setups.ts";

const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
const modes = modalColumn(instrument, instrument.gapMm);

/** Cents above the resonance, of every note, in the middle of its slot. */
const biases = (lips: Lips): number[] =>
  [1.3, 2].flatMap((timesThreshold) =>
    slotsAt(instrument, instrument.gapMm, { lips, pressure: { timesThreshold } }).notes.flatMap(
      ({ n, slot }) => (slot ? [1200 * Math.log2(slot.playingHz / resonanceHz(modes, n))] : []),
    ),
  );

it("notes begin well above every resonance on one-mass lips", () => {
  const all = biases(DEFAULT_LIPS);
  expect(all.length).toBe(18);
  expect(Math.min(...all)).toBeGreaterThan(55);
  expect(Math.max(...all)).toBeLessThan(100);
});

it("and on either side of them on two-way lips", () => {
  const all = biases(DEFAULT_TWO_WAY_LIPS);
  expect(all.length).toBeGreaterThanOrEqual(16);
  expect(Math.min(...all)).toBeGreaterThan(-60);
  expect(Math.max(...all)).toBeLessThan(55);
});
