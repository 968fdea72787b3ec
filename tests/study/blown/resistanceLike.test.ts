import { describe, expect, test } from "vitest";
import { resistanceChange } from "../../../src/study/blown/resistanceChange.ts";
import { resistanceChangeLike } from "../../../src/study/blown/resistanceLike.ts";
import { demo } from "../../acoustics/setups.ts";

describe("the stream through instruments like one that is assumed", () => {
  test("is that of the setup itself where nothing is assumed", () => {
    const drawn = { ...demo(), provenance: {} };
    const question = { gapMm: 5.04, referenceGapMm: 2.5 };
    expect(resistanceChangeLike(drawn, question)).toEqual({
      ...resistanceChange(drawn, question),
      expandedPercent: null,
    });
  });

  test("hides a change whose bounds reach what is felt only on some of them", () => {
    const setup = demo();
    const question = { gapMm: 5.04, referenceGapMm: 2.5 };
    const { rangePercent } = resistanceChange(setup, question);
    const thresholdPercent = Math.max(...rangePercent.map(Math.abs)) + 0.001;
    expect(resistanceChange(setup, { ...question, thresholdPercent }).finding).toBe("too-small");
    expect(resistanceChangeLike(setup, { ...question, thresholdPercent }).finding).toBe("unknown");
  });
});
