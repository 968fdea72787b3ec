import { describe, expect, it } from "vitest";
import { type Field, readField } from "../../src/app/form/field.ts";
import { FIT_FIELDS } from "../../src/app/state/notes/fit.ts";
import { READING, TOOL_FIELDS } from "../../src/app/state/notes/measure.ts";
import { type OtherUnit, otherUnit } from "../../src/units/otherUnit.ts";
import { otherUnitAnswer, otherUnitQuestion } from "../../src/words/otherUnit.ts";

const usual = READING.usualMm!;

describe("a number that fits the other unit better", () => {
  it("is one that is no usual length as it is read, and is one in the other unit", () => {
    expect(otherUnit("23.68", "in", usual)).toEqual({
      asReadMm: expect.closeTo(601.472, 6),
      otherMm: 23.68,
      other: "mm",
      text: "23.68 mm",
    });
    expect(otherUnit("0.93", "mm", usual)).toMatchObject({
      other: "in",
      text: "0.93 in",
      otherMm: expect.closeTo(23.622, 6),
    });
  });

  it.each([
    ["23.68", "mm"],
    ["0.93", "in"],
    ["15/16", "in"],
    ["23.68 in", "in"],
    ["0.93 mm", "mm"],
    ["0", "mm"],
    ["-0.93", "mm"],
    ["1000", "in"],
    ["", "mm"],
    ["wide", "in"],
  ] as const)("is not %j in %s", (typed, unit) => {
    expect(otherUnit(typed, unit, usual)).toBeUndefined();
  });

  it("is asked about in the unit in use, with what is meant", () => {
    const asked = (typed: string, unit: "mm" | "in") => {
      const found = otherUnit(typed, unit, usual) as OtherUnit;
      return [otherUnitQuestion(typed, unit, found), otherUnitAnswer(found)];
    };
    expect(asked("23.68", "in")).toEqual([
      "23.68 in would be 601.5 mm; did you mean 23.68 mm?",
      "Take 23.68 mm",
    ]);
    expect(asked(" 0.93", "mm")).toEqual([
      "0.93 mm would be 0.0366 in; did you mean 0.93 in (23.62 mm)?",
      "Take 0.93 in",
    ]);
  });
});

it("what is wrong with a length is said in the unit in use", () => {
  const said = (field: Field<number>, unit: "mm" | "in") => readField(field, "-1", unit).problem;
  for (const field of [
    TOOL_FIELDS.depthTool.resolution,
    TOOL_FIELDS.insertionTool.zeroUncertainty,
    FIT_FIELDS.preferred,
    FIT_FIELDS.clearance,
  ]) {
    expect(said(field, "in")).toMatch(/ in\b.* in\.$/);
    expect(said(field, "in")).not.toMatch(/mm/);
    expect(said(field, "mm")).toMatch(/ mm\.$/);
  }
});
