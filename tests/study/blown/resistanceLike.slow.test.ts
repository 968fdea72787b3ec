/** The spread over instruments like one, held against a thousand drawn one by one. */
import { deviation, randomLcg, randomNormal } from "d3";
import { describe, expect, test } from "vitest";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { findingOf, resistanceChange } from "../../../src/study/blown/resistanceChange.ts";
import { resistanceChangeLike } from "../../../src/study/blown/resistanceLike.ts";
import { ordinarySpread } from "../../../src/study/uncertainty/ordinarySpread.ts";
import { demo } from "../../acoustics/setups.ts";

const tuba = await standIn("tuba");

describe("the stream through instruments like one that is assumed", () => {
  test.each([
    ["demo", demo()],
    ["tuba", tuba],
  ] as const)("spreads as other instruments like the %s that are drawn one by one do", (_, setup) => {
    const question = { gapMm: gapMm(setup) + 2.54, referenceGapMm: gapMm(setup) };
    const alone = resistanceChange(setup, question);
    const like = resistanceChangeLike(setup, question);
    const normal = randomNormal.source(randomLcg(0.7))();
    const spreads = ordinarySpread(setup);
    const percents = Array.from({ length: 1000 }, () => {
      const one = spreads.reduce((made, { standard, moved }) => moved(made, standard * normal()), setup);
      return resistanceChange(one, question).changePercent.estimate;
    });
    // 200 draws of what has long tails know a standard deviation to a tenth
    const ratio = like.expandedPercent! / (coverageFactor(Infinity) * deviation(percents)!);
    expect(Math.abs(ratio - 1)).toBeLessThan(0.15);
    const [low, high] = alone.rangePercent;
    expect(like.rangePercent).toEqual([low - like.expandedPercent!, high + like.expandedPercent!]);
    expect(like.finding).toBe(
      findingOf(2.54, alone.changePercent.estimate, like.rangePercent, alone.thresholdPercent),
    );
  });
});
