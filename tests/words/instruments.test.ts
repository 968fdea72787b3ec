import { expect, test } from "vitest";
import { STAND_INS } from "../../src/setup/standIns.ts";
import { MOST_PARTIALS, partialOf } from "../../src/words/instruments.ts";

const said = (id: Parameters<typeof partialOf>[0], from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, i) => partialOf(id, from + i).said);

test("a trumpeter's open notes, whatever the trumpet is pitched in", () => {
  const notes = ["low C", "G", "C in the staff", "E", "G on top of the staff", "B♭ (flat)", "high C"];
  for (const id of ["b-flat-trumpet", "c-trumpet", "e-flat-trumpet", "cornet", "flugelhorn"] as const)
    expect(said(id, 2, 8)).toEqual(notes);
});

test("what sounds: B-flat and E-flat trumpet, trombone, horn, tuba", () => {
  expect(partialOf("b-flat-trumpet", 4)).toMatchObject({ written: "C5", sounding: "B♭4" });
  expect(partialOf("e-flat-trumpet", 4)).toMatchObject({ written: "C5", sounding: "E♭5" });
  expect(partialOf("bass-trombone", 2)).toMatchObject({ written: "B♭2", sounding: "B♭2" });
  expect(partialOf("horn-f", 4)).toMatchObject({ written: "C4", sounding: "F3" });
  expect(partialOf("horn-b-flat", 4)).toMatchObject({ written: "F4", sounding: "B♭3" });
  expect(partialOf("tuba", 2)).toMatchObject({ written: "B♭1", sounding: "B♭1" });
  expect(partialOf("b-flat-trumpet", 4).hz).toBeCloseTo(466.16, 2);
});

test("a partial's note is the one nearest to its harmonic", () => {
  expect(STAND_INS.length * MOST_PARTIALS).toBe(192);
  for (const id of STAND_INS)
    for (let n = 1; n <= MOST_PARTIALS; n++) {
      const { hz, tendency } = partialOf(id, n);
      const off = 1200 * Math.log2((n * partialOf(id, 1).hz) / hz);
      expect(Math.abs(off)).toBeLessThan(50);
      expect(tendency).toBe(off < -30 ? "flat" : off > 30 ? "sharp" : null);
    }
});
