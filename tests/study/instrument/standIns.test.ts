/**
 * The stand-ins' resonances beside the notes they must play: after the slide is set to partial 4, none of those played is more
 * than 30 cents off its harmonic nor off its tempered note. Partial 1 (the pedal) is excepted, and the seventh and eleventh are held
 * against the harmonic only: nobody plays them for their notes.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { warningsOf } from "../../../src/setup/plausible.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { STAND_INS, type StandInId, standIn } from "../../../src/setup/standIns.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { FAMILY, partialOf } from "../../../src/words/instruments.ts";

const MOST_CENTS = 30;
const HIGHEST: Partial<Record<StandInId, number>> = { "horn-f": 12, "horn-b-flat": 12, flugelhorn: 8 };
const SLIDE_BY = 4;

const cents = (hz: number, toHz: number): number => 1200 * Math.log2(hz / toHz);

it("has a file for each family and no other", () => {
  const files = readdirSync(new URL("../../../shared/standins/", import.meta.url));
  expect(files.sort()).toEqual(STAND_INS.map((id) => `${id}.setup.json`).sort());
  expect(STAND_INS.length).toBe(12);
});

describe.each(STAND_INS)("%s", (id) => {
  const highest = HIGHEST[id] ?? 10;

  it("says that it is invented, and names no place twice", async () => {
    const setup = await standIn(id);
    expect(setup.about).toMatch(
      /^Invented, of usual size: nobody's instrument, and every dimension assumed\./,
    );
    expect(setup.name).toMatch(/^Stand-in /);
    const file = JSON.parse(
      readFileSync(new URL(`../../../shared/standins/${id}.setup.json`, import.meta.url), "utf8"),
    );
    for (const part of ["mouthpiece", "leadpipe", "body"]) {
      const places: number[] = file[part].profile.map(([x]: [number, number]) => x);
      expect(places.length).toBeGreaterThan(1);
      expect(new Set(places).size).toBe(places.length);
    }
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
    const instrument = new Instrument(setup, { modes: 4 });
    expect(instrument.column.line.bore.slide?.pushMax).toBeGreaterThan(0.02);
  });

  it("plays its notes", async () => {
    const instrument = new Instrument(await standIn(id), { modes: highest });
    const draw = instrument.drawFor(SLIDE_BY, partialOf(id, SLIDE_BY).hz, instrument.gapMm);
    // the slide is near where the file has it: within a quarter tone
    expect(Math.abs(draw)).toBeLessThan(0.03 * 1000 * instrument.column.line.length);
    const modes = instrument.modes(instrument.gapMm, draw);
    expect(modes.length).toBe(highest);
    const rows = modes.slice(1).map(({ n, frequencyHz }) => {
      const { said, hz, tendency } = partialOf(id, n);
      const harmonicHz = n * (partialOf(id, SLIDE_BY).hz / SLIDE_BY);
      return {
        n,
        said,
        hz,
        tendency,
        frequencyHz,
        ofHarmonic: cents(frequencyHz, harmonicHz),
        off: cents(frequencyHz, hz),
      };
    });
    const table = rows.map(({ n, said, hz, frequencyHz, ofHarmonic, off }) =>
      [
        `${n}`.padStart(2),
        said.padEnd(22),
        hz.toFixed(2).padStart(8),
        frequencyHz.toFixed(2).padStart(8),
        off.toFixed(1).padStart(6),
        ofHarmonic.toFixed(1).padStart(6),
      ].join("  "),
    );
    const text = `${FAMILY[id].name}\n n  written                note Hz    res. Hz   cents  of harmonic\n${table.join("\n")}\n`;
    await expect(text).toMatchFileSnapshot(`../../snapshots/standins/${id}.txt`);
    for (const { tendency, off, ofHarmonic } of rows) {
      expect(Math.abs(ofHarmonic)).toBeLessThanOrEqual(MOST_CENTS);
      if (tendency === null) expect(Math.abs(off)).toBeLessThanOrEqual(MOST_CENTS);
    }
  });
});
