import { describe, expect, it } from "vitest";
import type { ProfileMm, Setup } from "../../../src/setup/setup.ts";
import { boreSensitivity, worstPlace } from "../../../src/study/compare/boreSensitivity.ts";
import { compare, type Variant } from "../../../src/study/compare/compare.ts";
import { knownQuantities } from "../../../src/study/compare/compareQuantities.ts";
import { parseGoal } from "../../../src/study/compare/goal.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectBodyBumpAsTwo } from "./bodyBump.ts";

const setup = demo();
const withLeadpipe = (profileMm: ProfileMm): Setup => ({ ...setup, leadpipe: { profileMm } });
const variants: readonly Variant[] = [
  { name: "demo", setup, gapMm: 2.5 },
  {
    name: "wider",
    setup: withLeadpipe([
      [0, 8.9],
      [240, 11.68],
    ]),
    gapMm: 2.5,
  },
  {
    name: "longer",
    setup: withLeadpipe([
      [0, 8.75],
      [250, 11.68],
    ]),
    gapMm: 2.5,
  },
];

describe("variants side by side", () => {
  it("are held against the reference, as they are and retuned", () => {
    const { variants: found } = compare(variants, { retune: 4 });
    const alone = variants.map((variant) => new Instrument(variant.setup).modes(2.5));
    expect(found).toHaveLength(3);
    found.forEach(({ modes, retuned, resistance }, v) => {
      expect(modes).toHaveLength(12);
      modes.forEach((mode, i) => {
        expect(mode.frequencyHz).toBe(alone[v][i].frequencyHz);
        expect(mode.shiftCents).toBeCloseTo(cents(alone[v][i].frequencyHz, alone[0][i].frequencyHz), 9);
      });
      expect(retuned!.by).toBe("the tuning slide");
      expect(retuned!.modes[3].shiftCents).toBeCloseTo(0, 6);
      expect(resistance!.resistance!.estimate).toBeGreaterThan(0);
    });
    expect(found[0].retuned!.drawMm).toBeCloseTo(0, 6);
    // 10 mm more of tube is 10 mm of slide less, nearly
    expect(found[2].retuned!.drawMm).toBeGreaterThan(-14);
    expect(found[2].retuned!.drawMm).toBeLessThan(-7);
  });

  it("without a slide get length at the start of the body, or are told why not", () => {
    const { slideAtMm: _, ...body } = setup.body;
    const fixed = variants.map((variant) => ({ ...variant, setup: { ...variant.setup, body } }));
    const found = compare(fixed, { retune: 4, reference: 2 }).variants;
    expect(found[0].retuned!.by).toBe("length at the start of the body");
    expect(found[0].retuned!.modes[3].shiftCents).toBeCloseTo(0, 6);
    expect(found[0].refusal).toBeNull();
    // a body that widens from its start has no cylinder to take from
    const cone = { profileMm: [[0, 11.68] as const, [1030, 122] as const] };
    const model = { ...setup.model, bell: "plane" as const };
    const conical = [0, 2].map((i) => ({
      ...variants[i],
      setup: { ...variants[i].setup, body: cone, model },
    }));
    const [, refused] = compare(conical, { retune: 4 }).variants;
    expect(refused.retuned).toBeNull();
    expect(refused.refusal).toMatch(
      /^no tuning slide, and the body cannot be shortened at its start .*body.slideAt$/,
    );
  });

  it("are ranked by a goal", () => {
    const goal = parseGoal("abs(shift6) + gap/1000", knownQuantities(12));
    const { ranking, variants: found } = compare(variants, { goal, retune: 4 });
    expect(ranking![0]).toBe(0);
    expect([...ranking!].sort()).toEqual([0, 1, 2]);
    const scores = ranking!.map((i) => found[i].score!);
    expect(scores).toEqual([...scores].sort((a, b) => a - b));
    expect(
      compare(variants.slice(0, 1), { goal: parseGoal("hold4", knownQuantities(12)) }).variants[0].score,
    ).toBeGreaterThan(10);
    expect(() => compare(variants, { reference: 3 })).toThrow(
      /no candidate 4 to compare with: choose one from 1 to 3/,
    );
    expect(() => compare(variants, { retune: 40 })).toThrow(/resonance 40 does not exist/);
  });
});

describe("sensitivity to an error of the bore", () => {
  const instrument = new Instrument(setup);
  const found = boreSensitivity(instrument, 2.5, { extentMm: 20 });

  it("is what two instruments with that bump differ by", () => {
    const at = found.places.findIndex(({ part, positionMm }) => part === "leadpipe" && positionMm > 115);
    const { positionMm } = found.places[at];
    const bumped = (by: number): Setup => {
      const { profileMm } = setup.leadpipe;
      const d = (x: number) => {
        const i = profileMm.findIndex(([to]) => to >= x);
        const [[x0, d0], [x1, d1]] = [profileMm[i - 1], profileMm[i]];
        return d0 + ((d1 - d0) * (x - x0)) / (x1 - x0);
      };
      const foot = [positionMm - 20, positionMm, positionMm + 20];
      const kept = profileMm.filter(([x]) => Math.abs(x - positionMm) > 20);
      const inside = profileMm.filter(([x]) => Math.abs(x - positionMm) < 20);
      const hat = (x: number) => by * (1 - Math.abs(x - positionMm) / 20);
      const points = [
        ...kept,
        ...foot.map((x) => [x, d(x) + (Math.abs(x - positionMm) < 20 ? hat(x) : 0)] as const),
        ...inside.map(([x, dx]) => [x, dx + hat(x)] as const),
      ].sort(([a], [b]) => a - b);
      return withLeadpipe(points);
    };
    const [less, more] = [-0.05, 0.05].map((by) => new Instrument(bumped(by)).modes(2.5));
    const largest = Math.max(...found.modes.map(({ centsPerMm }) => Math.abs(centsPerMm[at])));
    expect(found.modes).toHaveLength(12);
    found.modes.forEach((mode, i) => {
      const byTwo = cents(more[i].frequencyHz, less[i].frequencyHz) / 0.1;
      expect(Math.abs(mode.centsPerMm[at] - byTwo) / largest).toBeLessThan(2e-3);
      const decibelsByTwo = decibels(more[i].peakImpedance!, less[i].peakImpedance!) / 0.1;
      expect(mode.decibelsPerMm![at]).toBeCloseTo(decibelsByTwo, 2);
    });
  });

  it("in a bell with curved fronts is what two such instruments differ by", () => {
    expectBodyBumpAsTwo(980);
  });

  it("names the worst place, and the gap's derivative", () => {
    const { place, change } = worstPlace(found, found.modes[3].centsPerMm, 0.05);
    expect(found.places).toContain(place);
    expect(found.modes[3].centsPerMm).toHaveLength(71);
    for (const value of found.modes[3].centsPerMm)
      expect(Math.abs(value * 0.05)).toBeLessThanOrEqual(Math.abs(change));
    const [narrow, wide] = [2.4, 2.6].map((gapMm) => instrument.modes(gapMm)[5]);
    expect(found.modes[5].gapCentsPerMm).toBeCloseTo(cents(wide.frequencyHz, narrow.frequencyHz) / 0.2, 2);
    expect(() => boreSensitivity(instrument, 2.5, { extentMm: 0 })).toThrow(/extent of 0 mm cannot be used/);
  });
});
