// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import {
  bendsFor,
  foundBy,
  modelChange,
  noteOf,
  scatterOf,
  seemingDifferences,
} from "../../notebooks/your-own-slot/believable.ts";
import { believablePlot, seemingPlot } from "../../notebooks/your-own-slot/drawings.ts";
import { INVENTED, INVENTED_NAME } from "../../notebooks/your-own-slot/invented.ts";
import { takeOrigin } from "../../notebooks/your-own-slot/takeInput.ts";
import { heardInvented } from "./heardInvented.ts";

/** One take for all tests: it is listened to as any recording is. */
const trumpets = heardInvented(4, "b-flat-trumpet");

describe("the invented take", () => {
  it("says that it is invented, and a file and a microphone do not", async () => {
    const found = await trumpets;
    expect(found.file).toBe(INVENTED_NAME);
    expect(takeOrigin(found)).toMatch(/invented take, nobody's/);
    expect(takeOrigin({ ...found, file: "mine.wav" })).toBe("your take, mine.wav");
    expect(takeOrigin({ ...found, file: null })).toBe("your take");
  });

  it("tells a scatter near the one it was made with", async () => {
    const scatter = scatterOf(noteOf(await trumpets))!;
    // of one bend down and one up together, from three of each
    expect(scatter / (INVENTED.scatterCents * Math.SQRT2)).toBeGreaterThan(0.4);
    expect(scatter / (INVENTED.scatterCents * Math.SQRT2)).toBeLessThan(1.8);
  });
});

describe("how many bends make a difference believable", () => {
  it("is what drawn bends bear out: found four times in five", () => {
    const scatter = 14;
    const { bends, cents } = foundBy(scatter);
    const at = bends.indexOf(10);
    // two gaps that differ by just so much, and two that are alike, many times over
    const alike = seemingDifferences(scatter, 10, 4000);
    const sorted = alike.map(Math.abs).sort((a, b) => a - b);
    const claimed = sorted[Math.floor(0.95 * sorted.length)];
    const found = alike.filter((one) => Math.abs(one + cents[at]) > claimed).length / alike.length;
    expect(found).toBeGreaterThan(0.76);
    expect(found).toBeLessThan(0.9);
    for (let i = 1; i < cents.length; i++) expect(cents[i]).toBeLessThan(cents[i - 1]);
    const needed = bendsFor(scatter, cents[at])!;
    expect(needed).toBe(10);
  });

  it("needs more bends than anybody plays for what the model changes", () => {
    const change = modelChange(4)!;
    expect(Math.abs(change)).toBeLessThan(10);
    expect(bendsFor(14, change) ?? 100).toBeGreaterThan(30);
  });

  it("is drawn in numbers that exist", () => {
    const frame = { width: 600, height: 300, unit: "mm" } as const;
    for (const { svg } of [
      believablePlot(foundBy(14), 3, frame),
      believablePlot(foundBy(14), 2, frame),
      seemingPlot(seemingDifferences(14, 3), 3, frame),
    ])
      expect(svg.outerHTML).not.toMatch(/NaN|Infinity|undefined/);
  });
});
