import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { knownQuantities } from "../../../src/study/compare/compareQuantities.ts";
import { GoalError, parseGoal } from "../../../src/study/compare/goal.ts";

const known = knownQuantities(12);
const score = (text: string, quantities: Record<string, number | null> = {}) =>
  parseGoal(text, known).score(quantities);

describe("a goal", () => {
  it("is worked out as it is written", () => {
    expect(score("abs(cents2) + 2*abs(cents5) - height4/10", { cents2: -3, cents5: 4, height4: 30 })).toBe(8);
    expect(score("(-gap)^2 + max(1, Q3, 2) - min(slide, 5)", { gap: 3, Q3: 7, slide: 1 })).toBe(15);
    expect(score("hypot(cents2, cents3) + mean(cents2, cents3) + sqrt(4)", { cents2: 3, cents3: 4 })).toBe(
      10.5,
    );
    expect(score("2 cents2", { cents2: 3 })).toBe(6);
  });

  it("by weights on notes is their weighted r.m.s.", () => {
    expect(score("2:1, 5:3", { cents2: 4, cents5: 0 })).toBe(2);
    expect(() => parseGoal("2:0, 5:0", known)).toThrow(/weighs nothing/);
    expect(() => parseGoal("2:1, 99:3", known)).toThrow(/"cents99" is not known/);
  });

  it("says which quantity is missing by giving no value", () => {
    const goal = parseGoal("cents2 + hold4", known);
    expect(goal.symbols).toEqual(["cents2", "hold4"]);
    expect(goal.score({ cents2: 1, hold4: null })).toBeNull();
    expect(goal.score({ cents2: 1 })).toBeNull();
    expect(score("1/cents2", { cents2: 0 })).toBeNull();
    expect(score("sqrt(cents2)", { cents2: -1 })).toBeNull();
  });

  it("refuses all that is not arithmetic on known quantities, in words", () => {
    const refused: [string, RegExp][] = [
      [
        "abs(sents2)",
        /"sents2" is not known; known are f1 to f12, cents1 to cents12, .*gap, slide, resistance/,
      ],
      ["cents2.constructor", /"cents2.constructor" cannot stand in a goal/],
      ['cents2["constructor"]', /cannot stand in a goal/],
      ["x = cents2", /cannot stand in a goal/],
      ["f(x) = cents2", /cannot stand in a goal/],
      ["cents2; cents3", /cannot stand in a goal/],
      ["[cents2, cents3]", /cannot stand in a goal/],
      ["cents2 ? 1 : 2", /cannot stand in a goal/],
      ["1:cents2", /cannot stand in a goal/],
      ["cents2!", /cannot stand in a goal/],
      ["cents2 == 1", /cannot stand in a goal/],
      ['"text"', /cannot stand in a goal/],
      ["import(cents2)", /"import" is no function here; known are abs,/],
      ["evaluate(cents2)", /"evaluate" is no function here/],
      ["constructor(cents2)", /"constructor" is no function here/],
      ["toString(cents2)", /"toString" is no function here/],
      ["__proto__", /"__proto__" is not known/],
      ["abs()", /abs takes one value; it was given 0/],
      ["abs(cents2, cents3)", /abs takes one value; it was given 2/],
      ["1 + 1", /names no quantity/],
      ["cents2 +", /is no expression/],
      ["", /the goal is empty/],
      ["cents2 cents3", /"cents2 cents3" has no sign in between/],
      ["(cents2 + 1)(cents3)", /has no sign in between/],
      [`cents2${"+1".repeat(600)}`, /longer than 1000 characters/],
      [`cents2${"+1".repeat(300)}`, /more than 500 parts/],
    ];
    for (const [text, words] of refused) {
      expect(() => parseGoal(text, known)).toThrow(words);
      expect(() => parseGoal(text, known)).toThrow(GoalError);
    }
  });

  it("of any text is a number, nothing, or words on one line", () => {
    const marks = fc.constantFrom(
      ..."cents2 f4 + - * / ^ ( ) , 1 2.5 1e308 abs max [ ] . = ! ? : ; '".split(" "),
    );
    const text = fc.oneof(
      fc.string(),
      fc.array(marks, { maxLength: 20 }).map((parts) => parts.join(" ")),
    );
    fc.assert(
      fc.property(text, fc.double(), (typed, value) => {
        try {
          const found = score(typed, { cents2: value, f4: 1 });
          expect(found === null || Number.isFinite(found)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(GoalError);
          expect((error as Error).message).not.toContain("\n");
        }
      }),
      { numRuns: 500 },
    );
  });
});
