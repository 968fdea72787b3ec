// @vitest-environment jsdom
/** What a player said, whether it was said again, and the chance to find a difference. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Frame } from "../../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import {
  type AgreementData,
  agreementChart,
  agreementTable,
} from "../../../src/charts/plots/trial/agreementChart.ts";
import { powerChart, powerTable } from "../../../src/charts/plots/trial/powerChart.ts";
import {
  type RatingsData,
  ratingsChart,
  ratingsTable,
} from "../../../src/charts/plots/trial/ratingsChart.ts";
import { description, text } from "../examples.ts";

const frame: Frame = { width: 560, height: 330, unit: "mm" };
const scale = { name: "Preference", low: "never", high: "this one" };
const gapsMm = [1, 2, 3, 4];
const ratings = [
  [50, 61, 55],
  [78, 70, 83],
  [66, 71, 60],
  [31, 22, 40],
];
const items = gapsMm.map((gapMm, i) => ({
  label: `${gapMm} mm`,
  gapMm,
  ratings: ratings[i],
  mean: ratings[i].reduce((sum, one) => sum + one, 0) / 3,
  interval: [ratings[i][0] - 14, ratings[i][0] + 12] as const,
}));
const curve = {
  points: Array.from({ length: 13 }, (_, i) => {
    const gapMm = 1 + i / 4;
    const rating = 76 - 14 * (gapMm - 2.2) ** 2;
    return { gapMm, rating, interval: [rating - 8, rating + 8] as const };
  }),
  bestGapMm: 2.2,
  intervalMm: [1.8, 2.6] as const,
};
const data: RatingsData = { scale, items, curve, words: "Preference was told apart, p = 0.004." };

describe("ratings", () => {
  test("a ring a turn; the curve, its best gap and the interval stand at their gaps", async () => {
    const { svg, x, y } = ratingsChart(data, frame);
    expect(svg.querySelectorAll("circle.rating")).toHaveLength(12);
    expect(text(svg)).toContain("best about 2.2 mm");
    expect(x(2)).toBeLessThan(x(3));
    expect(y(80)).toBeLessThan(y(20));
    expect(description(svg)).toContain("p = 0.004. 1 mm: mean 55, ratings 50, 61, 55.");
    const file = standaloneSvg(svg, "light");
    expect(file).not.toMatch(/var\(|NaN|undefined/);
    await expect(file).toMatchFileSnapshot("../../snapshots/charts/plots/trial/ratings.svg");
  });

  test("nothing that was not found is drawn, and named things stand side by side, long names cut", () => {
    const named = items.map((item, i) => ({
      ...item,
      gapMm: null,
      label: i === 0 ? "the old shank with the sleeve of Tuesday" : `shank ${i}`,
    }));
    const { svg } = ratingsChart({ ...data, items: named, curve: null }, frame);
    expect(svg.querySelector("[data-part=curve]")).toBeNull();
    expect(text(svg)).toMatch(/the old \S*.*…/);
    expect(ratingsTable({ ...data, items: named }, "mm").rows[0][1]).toBe("");
  });

  test("the table has every rating, gaps in the unit", () => {
    const { rows } = ratingsTable(data, "in");
    expect(rows).toHaveLength(12);
    expect(rows[3]).toEqual(["2 mm", 2 / 25.4, 1, 78]);
  });
});

describe("agreement", () => {
  const agreement: AgreementData = { scale, items, words: "The repeats agree well." };

  test("a line an item, labelled at its end without one label over another", async () => {
    const { svg } = agreementChart(agreement, frame);
    expect(svg.querySelectorAll("path.item")).toHaveLength(4);
    const places = Array.from(svg.querySelectorAll("text"))
      .filter(({ textContent }) => / mm$/.test(textContent!))
      .map((label) => Number(label.getAttribute("y")))
      .sort((a, b) => a - b);
    expect(places).toHaveLength(4);
    places.slice(1).forEach((place, i) => {
      expect(place - places[i]).toBeGreaterThanOrEqual(12);
    });
    expect(agreementTable(agreement).rows[1]).toEqual(["2 mm", 78, 70, 83]);
    await expect(standaloneSvg(svg, "light")).toMatchFileSnapshot(
      "../../snapshots/charts/plots/trial/agreement.svg",
    );
  });
});

describe("power", () => {
  const powers = [0.1, 0.4, 0.66, 0.81, 0.9].map((chance, i) => ({ repeats: i + 2, chance }));

  test("the planned repeats stand out with their chance, against the usual aim", async () => {
    const { svg } = powerChart({ powers, chosenRepeats: 4, aim: 0.8, words: "4 repeats: 66 %." }, frame);
    expect(text(svg)).toContain("66 %");
    expect(text(svg)).toContain("80 %, the usual aim");
    expect(powerTable({ powers, chosenRepeats: 4, aim: 0.8, words: "" }).rows[2]).toEqual([4, 0.66]);
    await expect(standaloneSvg(svg, "light")).toMatchFileSnapshot(
      "../../snapshots/charts/plots/trial/power.svg",
    );
  });
});

test("any ratings on any sheet are drawn whole", () => {
  const frames: fc.Arbitrary<Frame> = fc.record({
    width: fc.integer({ min: 260, max: 1600 }),
    height: fc.integer({ min: 200, max: 420 }),
    unit: fc.constantFrom("mm", "in"),
  });
  const rating = fc.integer({ min: 0, max: 100 });
  const any = fc
    .tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 2, max: 14 }), fc.boolean())
    .chain(([count, repeats, isGaps]) =>
      fc
        .array(fc.array(rating, { minLength: repeats, maxLength: repeats }), {
          minLength: count,
          maxLength: count,
        })
        .map((all) =>
          all.map((one, i) => ({
            label: `item ${i + 1}`,
            gapMm: isGaps ? 0.3 * i : null,
            ratings: one,
            mean: one[0],
            interval: [one[0] - 60, one[0] + 60] as const,
          })),
        ),
    );
  fc.assert(
    fc.property(frames, any, (at, all) => {
      for (const { svg } of [
        ratingsChart({ ...data, items: all, curve: null }, at),
        agreementChart({ scale, items: all, words: "" }, at),
      ]) {
        expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
        for (const dot of svg.querySelectorAll("circle")) {
          expect(Number(dot.getAttribute("cx"))).toBeGreaterThanOrEqual(0);
          expect(Number(dot.getAttribute("cx"))).toBeLessThanOrEqual(at.width);
        }
      }
    }),
    { numRuns: 60 },
  );
});
