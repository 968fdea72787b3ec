/**
 * The stand-ins' resonances beside the notes they must play: after the slide is set to partial 4, none of those played is more
 * than 30 cents off its harmonic nor off its tempered note. Partial 1 (the pedal) is excepted, and the seventh and eleventh are held
 * against the harmonic only: nobody plays them for their notes.
 */
import { describe, expect, it } from "vitest";
import { STAND_INS, type StandInId, standIn } from "../../../src/setup/standIns.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { FAMILY, partialOf } from "../../../src/words/instruments.ts";

const MOST_CENTS = 30;
const HIGHEST: Partial<Record<StandInId, number>> = { "horn-f": 12, "horn-b-flat": 12, flugelhorn: 8 };
const SLIDE_BY = 4;

const cents = (hz: number, toHz: number): number => 1200 * Math.log2(hz / toHz);

describe.each(STAND_INS)("%s", (id) => {
  const highest = HIGHEST[id] ?? 10;

  it("has its resonances for the lips from one smooth column, whichever functions its bell takes", async () => {
    const { atRest } = new Instrument(await standIn(id), { modes: MODAL_COUNT }).column.fixedParts;
    expect(atRest.isResolved).toBe(true);
    expect(atRest.nodes).toBeLessThan(500);
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
