import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  hasDimension,
  isAnyAssumed,
  PROVENANCE_DIMENSIONS,
  PROVENANCE_PARTS,
  type ProvenanceDimension,
  provenanceOf,
  withProvenance,
} from "../../../src/setup/dimension/provenance.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import { exampleFile } from "../example.ts";
import { refusal } from "../refusal.ts";

const marked = (provenance: object, uncertainties: object = {}) =>
  readSetup({ ...exampleFile(), uncertainties, provenance });

const DIMENSIONS: readonly ProvenanceDimension[] = Object.values(PROVENANCE_DIMENSIONS).flat();

describe("where the numbers of a setup come from", () => {
  test("is told by a dimension's own mark, then by its part's", () => {
    const setup = marked({
      receiver: "assumed",
      "receiver.depth": "measured",
      body: "file",
      leadpipe: "assumed",
    });
    expect(provenanceOf(setup, "receiver.depth")).toBe("measured");
    expect(provenanceOf(setup, "receiver.taper")).toBe("assumed");
    expect(provenanceOf(setup, "body.profile")).toBe("file");
    expect(provenanceOf(setup, "leadpipe.profile")).toBe("assumed");
    expect(isAnyAssumed(setup)).toBe(true);
  });

  test("without a mark is measured where an uncertainty is stated, else a file's", () => {
    const setup = marked(
      {},
      { "receiver.depth": 0.02, "leadpipe.diameters": 0.02, "body.profile[1][1]": 0.1 },
    );
    expect(provenanceOf(setup, "receiver.depth")).toBe("measured");
    expect(provenanceOf(setup, "leadpipe.profile")).toBe("measured");
    expect(provenanceOf(setup, "body.profile")).toBe("measured");
    expect(provenanceOf(setup, "mouthpiece.profile")).toBe("file");
    expect(isAnyAssumed(setup)).toBe(false);
    // a file of before has no such key, and none is written for it
    expect(writeSetup(readSetup(exampleFile()))).not.toHaveProperty("provenance");
  });

  test("comes back from what is written, whatever is marked", () => {
    const places = [...PROVENANCE_PARTS, ...DIMENSIONS.filter((one) => one !== "leadpipe.profile")];
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom(...places), fc.constantFrom("measured", "file", "assumed")),
        (provenance) => {
          const setup = marked(provenance);
          expect(setup.provenance).toEqual(provenance);
          expect(readSetup(JSON.parse(JSON.stringify(writeSetup(setup)))).provenance).toEqual(provenance);
        },
      ),
    );
  });

  test.each([...DIMENSIONS])("a mark put on %s is kept in the file and changes no other", (dimension) => {
    const before = marked({ mouthpiece: "assumed", receiver: "assumed", leadpipe: "file", body: "assumed" });
    const after = withProvenance(before, "measured", dimension);
    const again = readSetup(JSON.parse(JSON.stringify(writeSetup(after))));
    for (const one of DIMENSIONS)
      expect(provenanceOf(again, one)).toBe(one === dimension ? "measured" : provenanceOf(before, one));
  });

  test("is not assumed by a dimension that the setup has not got", () => {
    const { cupDepth: _, ...mouthpiece } = exampleFile().mouthpiece;
    const setup = readSetup({
      ...exampleFile(),
      mouthpiece,
      provenance: { "mouthpiece.cupDepth": "assumed" },
    });
    expect(hasDimension(setup, "mouthpiece.cupDepth")).toBe(false);
    expect(isAnyAssumed(setup)).toBe(false);
  });

  test("refuses other words and other places, saying what would be right", () => {
    const refused = (provenance: object) =>
      refusal(() => marked(provenance)).map(({ path, message }) => `${path}: ${message}`);
    expect(refused({ body: "guessed" })).toEqual([
      'provenance.body: "guessed" is not accepted; give "measured" or "file" or "assumed"',
    ]);
    expect(refused({ bell: "assumed" })).toEqual([
      expect.stringMatching(
        /^provenance\.bell: unknown key; the keys here are mouthpiece, .*receiver\.depth/,
      ),
    ]);
  });
});
