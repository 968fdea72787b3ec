import { expect, test } from "vitest";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { provenanceLine, standInWords } from "../../src/words/provenance.ts";
import { exampleFile } from "../setup/example.ts";

const setup = (provenance: object) => readSetup({ ...exampleFile(), provenance });
const STAND_IN = { mouthpiece: "assumed", receiver: "assumed", leadpipe: "assumed", body: "assumed" };
const GAP = { "receiver.depth": "measured", "mouthpiece.insertion": "measured" };

test("a report says in one line what was measured, what a file gave and what is assumed", () => {
  expect(provenanceLine(setup({ ...STAND_IN, ...GAP, leadpipe: "file" }))).toBe(
    "Measured: insertion and receiver depth. From a file: leadpipe. Assumed, from a stand-in: mouthpiece bore, cup depth, " +
      "shank end diameter, shank taper, receiver mouth diameter, receiver taper, body and slide position.",
  );
  expect(provenanceLine(setup({ ...STAND_IN, mouthpiece: "measured", receiver: "measured" }))).toMatch(
    /^Measured: mouthpiece bore, .* receiver taper\. Assumed, from a stand-in: leadpipe, body and slide position\.$/,
  );
  expect(provenanceLine(setup({}))).toBe(
    "The setup file does not say what was measured on this instrument and what is assumed.",
  );
});

test("of a stand-in it is said how the gap is known and what is lent; of a whole instrument nothing", () => {
  expect(standInWords(setup({ ...STAND_IN, ...GAP }), 0.07, "mm")).toBe(
    "Gap measured to ±0.07 mm; the rest is a stand-in",
  );
  expect(standInWords(setup({ ...STAND_IN, ...GAP }), null, "mm")).toBe(
    "Gap measured, how well is not stated; the rest is a stand-in",
  );
  expect(standInWords(setup(STAND_IN), 0.07, "mm")).toBe(
    "The gap is assumed, not measured; the rest is a stand-in",
  );
  expect(standInWords(setup({ body: "assumed" }), null, "mm")).toBe(
    "Gap from a file; of a stand-in: body and slide position",
  );
  expect(standInWords(setup({ ...GAP }), 0.07, "mm")).toBe("");
});
