// @vitest-environment jsdom
/** A drawing that was drawn over another is the one that is drawn anew, and what is the same in both was not touched. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cutaway } from "../../../src/charts/drawings/cutaway.ts";
import { add, type Drawing, type Frame, sheet } from "../../../src/charts/kit/drawing.ts";
import { endRedraw, keep } from "../../../src/charts/kit/redraw.ts";
import { impedanceChart } from "../../../src/charts/plots/impedanceChart.ts";
import { standingWaveChart } from "../../../src/charts/plots/standingWaveChart.ts";
import { verdictBar } from "../../../src/charts/plots/verdictBar.ts";
import { explored, laptop, referenceGapMm, setup } from "../examples.ts";

type Draw = (frame: Frame) => Pick<Drawing, "svg">;

/** Draws over `svg`, which is the new drawing then. */
function over(svg: SVGSVGElement, draw: Draw, frame: Frame): void {
  expect(draw({ ...frame, over: svg }).svg).toBe(svg);
  endRedraw(svg);
}

const section: (gapMm: number) => Draw = (chosenGapMm) => (frame) =>
  cutaway({ setup, chosenGapMm, referenceGapMm }, frame);

describe("drawn over", () => {
  test("anything becomes anything", () => {
    const frames: fc.Arbitrary<Frame> = fc.record({
      width: fc.integer({ min: 200, max: 1600 }),
      height: fc.integer({ min: 200, max: 800 }),
      unit: fc.constantFrom("mm", "in"),
    });
    // the first answer alone has no uncertainties yet
    explored(1);
    const gaps = fc
      .integer({ min: 0, max: 1200 })
      .map((hundredths) => hundredths / 100)
      .filter((gapMm) => gapMm !== referenceGapMm);
    const impedance = fc.record({
      gapMm: gaps,
      magnitude: fc.constantFrom("dB", "linear"),
      highlight: fc.option(fc.integer({ min: 1, max: 12 }), { nil: undefined }),
      cursorHz: fc.option(fc.integer({ min: 60, max: 1500 }), { nil: undefined }),
    });
    const draws: fc.Arbitrary<Draw> = fc.oneof(
      gaps.map(section),
      impedance.map(
        ({ gapMm, magnitude, highlight, cursorHz }): Draw =>
          (frame) =>
            impedanceChart(
              {
                ...explored(gapMm),
                ...(highlight && { highlight }),
                ...(cursorHz && { cursorHz }),
              },
              { ...frame, magnitude },
            ),
      ),
      gaps.map(
        (gapMm): Draw =>
          (frame) =>
            standingWaveChart(explored(gapMm).wave, frame),
      ),
      gaps.map(
        (gapMm): Draw =>
          (frame) =>
            verdictBar(explored(gapMm).verdicts[0].tests[0], frame),
      ),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(draws, frames), { minLength: 2, maxLength: 5 }), ([first, ...rest]) => {
        const { svg } = first[0](first[1]);
        for (const [draw, frame] of rest) {
          over(svg, draw, frame);
          expect(svg.isEqualNode(draw(frame).svg)).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("what stays is the same mark, and nothing of it is written", () => {
    const frame = { ...laptop, width: 900, height: 260 };
    const { svg } = section(3)(frame);
    const watching = new MutationObserver(() => {});
    watching.observe(svg, { attributes: true, childList: true, characterData: true, subtree: true });
    over(svg, section(3), frame);
    expect(watching.takeRecords()).toEqual([]);
    const marks = [...svg.querySelectorAll("*")];
    const pieces = [...svg.querySelectorAll("text")].map(({ firstChild }) => firstChild);
    over(svg, section(3.5), frame);
    expect([...svg.querySelectorAll("*")]).toEqual(marks);
    const touched = watching
      .takeRecords()
      .map(({ target, type }) => (type === "characterData" ? target.parentElement! : (target as Element)));
    // words are written over, not put anew
    expect(touched.some((element) => element.localName === "text")).toBe(true);
    expect([...svg.querySelectorAll("text")].map(({ firstChild }) => firstChild)).toEqual(pieces);
    expect(touched.some((element) => element.closest(".shank"))).toBe(true);
    // the receiver does not move
    expect(touched.some((element) => element.matches("g:not(.shank):first-of-type > path"))).toBe(false);
  });

  test("what a group was drawn from decides whether it is drawn again", () => {
    let isDrawn = false;
    const draw =
      (from: number, hasTwo = true): Draw =>
      (frame) => {
        const svg = sheet(frame, { name: "any", title: "any", description: "any" });
        if (hasTwo) add(svg, "g", { class: "other" });
        keep(svg, [from, "same"], (group) => {
          isDrawn = true;
          add(group, "circle", { r: from });
        });
        return { svg };
      };
    const { svg } = draw(1)(laptop);
    for (const [from, hasTwo, draws] of [
      [1, true, false],
      [2, true, true],
      [2, true, false],
      // in the place of another group, of which nothing is known
      [2, false, true],
      [2, true, true],
    ] as const) {
      isDrawn = false;
      over(svg, draw(from, hasTwo), laptop);
      expect(isDrawn).toBe(draws);
      expect(svg.isEqualNode(draw(from, hasTwo)(laptop).svg)).toBe(true);
    }
  });
});
