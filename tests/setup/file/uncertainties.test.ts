import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dimensionAt, NAMED_DIMENSIONS } from "../../../src/setup/dimension/dimension.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import { SetupError } from "../../../src/setup/problem.ts";
import { exampleFile } from "../example.ts";

const withUncertainties = (uncertainties: unknown, file: object = exampleFile()) => ({
  ...file,
  uncertainties,
});

describe("uncertainties in a setup file", () => {
  test("are read in the file's units, with degrees of freedom where they have them", () => {
    const { uncertainties } = readSetup(
      withUncertainties({
        "receiver.depth": 0.02,
        "mouthpiece.insertion": { standard: "0.001 in", degreesOfFreedom: 4 },
        "leadpipe.profile[1][1]": 0.01,
        "receiver.taper": 0.001,
        "air.temperature": 0.5,
      }),
    );
    expect(uncertainties).toEqual({
      "receiver.depth": { standard: 0.02, degreesOfFreedom: Infinity },
      "mouthpiece.insertion": { standard: 0.0254, degreesOfFreedom: 4 },
      "leadpipe.profile[1][1]": { standard: 0.01, degreesOfFreedom: Infinity },
      "receiver.taper": { standard: 0.001, degreesOfFreedom: Infinity },
      "air.temperature": { standard: 0.5, degreesOfFreedom: Infinity },
    });
  });

  test("come back as they were from what is written", () => {
    const uncertainty = fc.record({
      standard: fc.double({ min: 1e-6, max: 0.4, noNaN: true }),
      degreesOfFreedom: fc.oneof(fc.constant(Infinity), fc.double({ min: 0.5, max: 1e6, noNaN: true })),
    });
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom(...NAMED_DIMENSIONS, "body.profile[0][0]"), uncertainty),
        fc.constantFrom("mm", "in"),
        (uncertainties, units) => {
          const setup = { ...readSetup(exampleFile()), units: units as "mm" | "in", uncertainties };
          const again = readSetup(JSON.parse(JSON.stringify(writeSetup(setup)))).uncertainties;
          expect(Object.keys(again).sort()).toEqual(Object.keys(uncertainties).sort());
          for (const [path, { standard, degreesOfFreedom }] of Object.entries(uncertainties)) {
            expect(again[path].degreesOfFreedom).toBe(degreesOfFreedom);
            expect(again[path].standard / standard).toBeCloseTo(1, 9);
          }
        },
      ),
    );
  });

  test.each([
    [
      { "receiver.dept": 0.02 },
      /uncertainties\["receiver\.dept"\]: no dimension of this setup has that name; give one of receiver\.depth/,
    ],
    [{ "leadpipe.profile[9][1]": 0.02 }, /no dimension of this setup/],
    [{ "receiver.depth": -0.1 }, /no standard uncertainty of the receiver depth; give 0 to 12\.27 mm/],
    [{ "receiver.depth": 20 }, /give 0 to 12\.27 mm/],
    [{ "receiver.depth": "wide" }, /"wide"/],
    [{ "receiver.taper": "0.1" }, /is no number; give one in the unit of the receiver taper/],
    [
      { "receiver.depth": { standard: 0.1, degreesOfFreedom: 0 } },
      /degreesOfFreedom.*give a number from 0\.5/,
    ],
    [{ "receiver.depth": { degreesOfFreedom: 3 } }, /standard: missing/],
    [{ "receiver.depth": [1] }, /a standard uncertainty: a number, text with a unit/],
    [0.1, /an object/],
  ])("%j is refused in words", (uncertainties, words) => {
    try {
      readSetup(withUncertainties(uncertainties));
    } catch (error) {
      expect(error).toBeInstanceOf(SetupError);
      expect((error as SetupError).message).toMatch(words);
      return;
    }
    throw new Error("taken");
  });
});

describe("a dimension moved", () => {
  const setup = readSetup(exampleFile());

  test.each(NAMED_DIMENSIONS)("%s, and nothing else", (path) => {
    const dimension = dimensionAt(setup, path)!;
    const moved = dimensionAt(dimension.moved(0.01), path)!;
    expect(moved.value - dimension.value).toBeCloseTo(0.01, 12);
    for (const other of NAMED_DIMENSIONS)
      if (other !== path)
        expect(dimensionAt(dimension.moved(0.01), other)!.value).toBe(dimensionAt(setup, other)!.value);
  });

  test("a point of a profile, either way", () => {
    const moved = dimensionAt(setup, "leadpipe.profile[1][0]")!.moved(-1);
    expect(moved.leadpipe.profileMm).toEqual([
      [0, 8.8],
      [239, 11.68],
    ]);
    expect(dimensionAt(setup, "body.profile[2][1]")!.moved(2).body.profileMm[2]).toEqual([1030, 124]);
    expect(dimensionAt(setup, "body.profile[3][1]")).toBeUndefined();
    expect(dimensionAt(setup, "constructor")).toBeUndefined();
  });
});
