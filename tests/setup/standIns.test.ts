/** The stand-ins' files: complete, marked as invented, and instruments of usual size. Their resonances: `standIns.slow.test.ts`. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { boreOf } from "../../src/acoustics/duct/bore.ts";
import { warningsOf } from "../../src/setup/dimension/plausible.ts";
import { PROVENANCE_DIMENSIONS, provenanceOf } from "../../src/setup/dimension/provenance.ts";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../src/setup/file/writeSetup.ts";
import { gapMm } from "../../src/setup/setup.ts";
import { STAND_INS, standIn } from "../../src/setup/standIns.ts";
import { ordinarySpread } from "../../src/study/uncertainty/ordinarySpread.ts";

it("has a file for each family and no other", () => {
  const files = readdirSync(new URL("../../shared/standins/", import.meta.url));
  expect(files.sort()).toEqual(STAND_INS.map((id) => `${id}.setup.json`).sort());
  expect(STAND_INS.length).toBe(12);
});

describe.each(STAND_INS)("%s", (id) => {
  it("says that it is invented, and names no place twice", async () => {
    const setup = await standIn(id);
    expect(setup.about).toMatch(
      /^Invented, of usual size: nobody's instrument, and every dimension assumed\./,
    );
    expect(setup.name).toMatch(/^Stand-in /);
    const file = JSON.parse(
      readFileSync(new URL(`../../shared/standins/${id}.setup.json`, import.meta.url), "utf8"),
    );
    for (const part of ["mouthpiece", "leadpipe", "body"]) {
      const places: number[] = file[part].profile.map(([x]: [number, number]) => x);
      expect(places.length).toBeGreaterThan(1);
      expect(new Set(places).size).toBe(places.length);
    }
  });

  it("is marked as assumed whole, and differs from others of its kind as instruments that can be", async () => {
    const setup = await standIn(id);
    for (const dimension of Object.values(PROVENANCE_DIMENSIONS).flat())
      expect(provenanceOf(setup, dimension)).toBe(dimension.startsWith("air.") ? "file" : "assumed");
    const spreads = ordinarySpread(setup);
    expect(spreads).toHaveLength(17);
    for (const { moved, standard } of spreads)
      for (const by of [-2 * standard, 2 * standard])
        expect(() => readSetup(writeSetup(moved(setup, by)))).not.toThrow();
  });

  it("is taken without a warning, seats where its diameters say with a gap of usual size, and its slide can be drawn and pushed", async () => {
    const setup = await standIn(id);
    expect(warningsOf(setup)).toEqual([]);
    const { mouthpiece, receiver, leadpipe, body } = setup;
    const seatMm = receiver.mouthDiameterMm - receiver.taper * mouthpiece.insertionMm;
    expect(seatMm).toBeCloseTo(mouthpiece.shankEndDiameterMm ?? Number.NaN, 6);
    expect(gapMm(setup)).toBeGreaterThanOrEqual(1.5);
    expect(gapMm(setup)).toBeLessThanOrEqual(3.5);
    // a wall is left at the shank's end, and a step into the leadpipe
    const [, exitMm] = mouthpiece.profileMm[mouthpiece.profileMm.length - 1];
    expect(seatMm - exitMm).toBeGreaterThanOrEqual(0.8);
    expect(leadpipe.profileMm[0][1]).toBeGreaterThan(exitMm);
    expect(leadpipe.profileMm[0][1]).toBeLessThan(
      receiver.mouthDiameterMm - receiver.taper * receiver.depthMm,
    );
    expect(body.profileMm[0][1]).toBe(leadpipe.profileMm[leadpipe.profileMm.length - 1][1]);
    expect(body.profileMm.every(([, d], i, all) => i === 0 || d >= all[i - 1][1])).toBe(true);
    expect(boreOf(setup).slide?.pushMax).toBeGreaterThan(0.02);
  });
});
