// @vitest-environment jsdom
import { describe, expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import type { Theme } from "../../../src/charts/kit/tokens.ts";
import { gapStreamFigure, streamChart } from "../../../src/charts/plots/gap/streamChart.ts";
import { nearestGapStream } from "../../../src/study/blown/gapStream.ts";
import { description, laptop } from "../examples.ts";

const data = (gapOverDiameter: number, reynolds: number) => {
  const own = { gapOverDiameter, reynolds };
  return { drawn: nearestGapStream(own), own };
};
const frame = (width: number) => ({ ...laptop, width, height: gapStreamFigure.height(width, null) });

test.each<[name: string, gap: number, reynolds: number, width: number, theme: Theme]>([
  ["narrow", 0.1, 900, 780, "light"],
  ["middle", 0.3, 3000, 780, "light"],
  ["wide-phone", 0.7, 3100, 360, "dark"],
  ["wide-print", 0.7, 900, 560, "print"],
])("looks as it did: %s", async (name, gap, reynolds, width, theme) => {
  const { svg } = streamChart(data(gap, reynolds), frame(width));
  await expect(standaloneSvg(svg, theme)).toMatchFileSnapshot(
    `../../snapshots/charts/plots/gap/stream-${name}.svg`,
  );
});

describe("the stream across the gap", () => {
  const { drawn, own } = data(0.3, 3000);
  const { svg, x, y } = streamChart({ drawn, own }, frame(780));

  test("draws streamlines, the air that turns round, the layer and the line between, all from the field", () => {
    expect(svg.querySelectorAll("[data-part=streamlines] path")).toHaveLength(6);
    expect(svg.querySelectorAll("[data-part=turning] path").length).toBeGreaterThanOrEqual(3);
    expect(svg.querySelectorAll("[data-part=speed] path")).toHaveLength(6);
    expect(svg.querySelector("[data-part=shear-layer]")).not.toBeNull();
    const line = svg.querySelector("[data-part=dividing]")!.getAttribute("d")!;
    expect(
      line.startsWith(`M${x(0).toFixed(1).replace(/\.0$/, "")},${y(1).toFixed(1).replace(/\.0$/, "")}`),
    ).toBe(true);
    expect(line).not.toMatch(/NaN/);
  });

  test("says in words which stream it is, and that it is not the player's own", () => {
    expect(svg.querySelector("title")!.textContent).toBe(
      "The stream across the gap: Re 3200, gap 0.30 of the bore",
    );
    expect(description(svg)).toMatch(/shear layer.*% of the bore’s radius thick.*turns round/);
    expect(gapStreamFigure.caption({ drawn, own }, "mm")).toBe(
      "Computed for a smooth stream between two equal bores with sharp edges: Re 3200, gap 0.30 of the bore. It is the nearest of the " +
        "computed streams to yours (Re 3000, gap 0.30 of the bore), not your own.",
    );
    expect(gapStreamFigure.caption({ drawn, own: null }, "mm")).not.toMatch(/yours/);
  });

  test("has the whole field to compute with and the layer to read", () => {
    const { columns, rows } = gapStreamFigure.table({ drawn, own }, "mm");
    expect(columns).toHaveLength(4);
    expect(rows).toHaveLength(drawn.along.length * drawn.radii.length);
    const layer = gapStreamFigure.readable!({ drawn, own }, "mm").rows;
    expect(layer[0][0]).toBe(0);
    expect(layer.at(-1)![0]).toBeCloseTo(0.6, 9);
  });
});
