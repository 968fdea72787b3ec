// @vitest-environment jsdom
/** The drawn set-up of sweeps: whole at any size and of any instrument, true to scale, and saying what it shows. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { SWEEP_PLACES, sweepGuide } from "../../../src/charts/drawings/sweepGuide.ts";
import type { Frame } from "../../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { readSetupText } from "../../../src/setup/file/readSetup.ts";
import { description, setup, text } from "../examples.ts";

const frame: Frame = { width: 520, height: 250, unit: "mm" };

test.each(SWEEP_PLACES)("%s", async (place) => {
  const file = standaloneSvg(sweepGuide(place, setup, frame).svg, "light");
  expect(file).not.toMatch(/var\(|NaN|undefined/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/drawings/sweep-${place}.svg`);
});

describe("the set-up", () => {
  const folder = "shared/standins/";
  const families = readdirSync(folder).filter((name) => name.endsWith(".json"));

  test("of every family, at a phone's and a hall's width, has its numbers and keeps its texts on the sheet", () => {
    expect(families.length).toBeGreaterThan(8);
    for (const name of families) {
      const own = readSetupText(readFileSync(folder + name, "utf8"));
      for (const place of SWEEP_PLACES)
        for (const width of [330, 900])
          for (const unit of ["mm", "in"] as const) {
            const { svg } = sweepGuide(place, own, { width, height: 250, unit });
            expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
            for (const written of svg.querySelectorAll("text")) {
              const at = Number(written.getAttribute("x"));
              expect(at).toBeGreaterThanOrEqual(0);
              expect(at).toBeLessThanOrEqual(width);
            }
          }
    }
  });

  test("is to scale, with the microphone one bell radius before the bell", () => {
    const { x, y } = sweepGuide("bell", setup, frame);
    expect(Math.abs(x(10) - x(0))).toBeCloseTo(Math.abs(y(10) - y(0)), 6);
    const { profileMm } = setup.body;
    const radius = profileMm[profileMm.length - 1][1] / 2;
    const { svg } = sweepGuide("bell", setup, frame);
    expect(description(svg)).toContain(`one bell radius in front of it: ${radius.toFixed(2)} mm`);
    expect(text(sweepGuide("cup", setup, frame).svg)).toMatch(/earphone[\s\S]*microphone[\s\S]*putty/);
  });
});
