// @vitest-environment jsdom
import { expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { type Theme, tokens } from "../../../src/charts/kit/tokens.ts";
import { heightChart } from "../../../src/charts/plots/gap/heightChart.ts";
import { asItIs, laptop, thresholds } from "../examples.ts";

const themes: Theme[] = ["light", "dark", "print"];

/** Relative luminance and contrast as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

test.each(themes)("%s: text and accents 4.5 : 1 on paper, lines of resonances 3 : 1", (theme) => {
  const palette = tokens[theme];
  for (const name of ["ink", "muted", "gap", "reference"])
    expect(contrast(palette[name], palette.paper), name).toBeGreaterThanOrEqual(4.5);
  for (let i = 1; i <= 9; i++)
    expect(contrast(palette[`series-${i}`], palette.paper), `series-${i}`).toBeGreaterThanOrEqual(3);
  // against the metal the gap must stand out as well
  expect(contrast(palette.gap, palette.metal), "gap on metal").toBeGreaterThanOrEqual(3);
});

test("all themes have the same names", () => {
  for (const theme of themes) expect(Object.keys(tokens[theme])).toEqual(Object.keys(tokens.light));
});

test("an exported drawing stands alone", () => {
  const { svg } = heightChart({ sweep: asItIs, chosenGapMm: 4, thresholds }, laptop);
  const file = standaloneSvg(svg, "dark");
  expect(file).toContain('xmlns="http://www.w3.org/2000/svg"');
  expect(file).toContain(tokens.dark.paper);
  expect(file).toContain(tokens.dark.gap);
  expect(file).not.toContain("var(");
  expect(file).toContain("font-family=");
  expect(file).toContain("<desc>");
  const parsed = new DOMParser().parseFromString(file, "image/svg+xml");
  expect(parsed.querySelector("parsererror")).toBeNull();
  // the drawing on the page is left as it was
  expect(svg.outerHTML).toContain("var(--gap, ");
  expect(svg.querySelector(".hit")).not.toBeNull();
});

test("letters on lines have a rim of paper on a screen, and none in print", () => {
  const { svg } = heightChart({ sweep: asItIs, chosenGapMm: 4, thresholds }, laptop);
  const rims = (theme: Theme) =>
    [...standaloneSvg(svg, theme).matchAll(/<text[^>]*stroke="([^"]*)"[^>]*paint-order="stroke"/g)].map(
      ([, rim]) => rim,
    );
  expect(rims("light").length).toBeGreaterThan(0);
  expect(new Set(rims("light"))).toEqual(new Set([tokens.light.paper]));
  expect(new Set(rims("print"))).toEqual(new Set(["none"]));
});
