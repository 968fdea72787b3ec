import { expect, it } from "vitest";
import { contradictionWords } from "../../../src/words/bench/contradiction.ts";

it("a contradiction says both gaps, who gives the one, and what to do, in the unit in use", () => {
  const other = { kind: "foresees-other-gap", foreseenMm: 2.54, gapMm: 3.5, givenBy: "readings" } as const;
  expect(contradictionWords(other, "mm")).toBe(
    "The diameters and tapers predict a gap of 2.54 mm, not 3.50 mm as measured. One of them is wrong: measure them again before cutting anything.",
  );
  expect(contradictionWords(other, "in")).toMatch(/a gap of 0\.100 in, not 0\.138 in as measured/);
  const wider = {
    kind: "wider-than-receiver",
    at: "face",
    excessMm: 0.05,
    foreseenMm: 2.5,
    gapMm: 1.5,
    givenBy: "file",
  } as const;
  expect(contradictionWords(wider, "mm")).toMatch(
    /^At a gap of 1\.50 mm as in the setup file the shank would be 0\.050 mm wider than the receiver at the receiver's face: the diameters and tapers predict a gap of 2\.50 mm\./,
  );
  expect(contradictionWords({ ...wider, at: "end", foreseenMm: undefined }, "in")).toMatch(
    /0\.0020 in wider than the receiver at its end: it cannot sit there\./,
  );
});
