import { expect, test } from "vitest";
import { STAND_INS } from "../../src/setup/standIns.ts";
import {
  concertPitch,
  MOST_PARTIALS,
  noteLabel,
  notesText,
  noteText,
  partialOf,
  writtenPitch,
} from "../../src/words/instruments.ts";

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

test("one name for one partial, whatever sounds or resonates: short on charts, in full in sentences", () => {
  expect([2, 3, 4, 7, 8].map((n) => noteLabel(n, "b-flat-trumpet"))).toEqual([
    "2 C",
    "3 G",
    "4 C",
    "7 B♭",
    "8 C",
  ]);
  expect(noteText(4, "b-flat-trumpet")).toBe("C in the staff (4)");
  expect(noteText(7, "cornet")).toBe("flat B♭ (7)");
  expect(noteText(4, "bass-trombone")).toBe("B♭3 (4)");
  expect(notesText([8, 3], "c-trumpet")).toBe("G (3), high C (8)");
  // without an instrument, or above what has a name, the number alone
  expect([noteLabel(4), noteText(4), noteLabel(17, "tuba")]).toEqual(["4", "partial 4", "17"]);
});

test("any pitch as written, and how far a partial lies from the note it is played for", () => {
  expect(writtenPitch(466.16, "b-flat-trumpet")).toMatchObject({ name: "C5" });
  expect(writtenPitch(466.16, "b-flat-trumpet").hz).toBeCloseTo(466.16, 2);
  expect(writtenPitch(466.16, "bass-trombone").name).toBe("B♭4");
  // 80 cents flat is still that note, not the one below
  expect(concertPitch(466.16 * 2 ** (-80 / 1200), 4, "b-flat-trumpet")).toBe("concert B♭4 −80 cents");
});
