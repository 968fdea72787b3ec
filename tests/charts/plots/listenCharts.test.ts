// @vitest-environment jsdom
/** The strip of a take, and what was measured over gap. */
import { describe, expect, it } from "vitest";
import {
  type ListenedChart,
  listenedChart,
  listenedTable,
} from "../../../src/charts/plots/listen/listenedChart.ts";
import { type PitchStrip, pitchStrip, pitchStripTable } from "../../../src/charts/plots/listen/pitchStrip.ts";
import { description, laptop, text } from "../examples.ts";

const strip: PitchStrip = {
  partial: 4,
  isAboutRest: true,
  reachCents: 250,
  points: [
    { atS: 0, cents: null },
    { atS: 0.5, cents: 0 },
    { atS: 1, cents: -60 },
    { atS: 1.5, cents: -500 },
    { atS: 2, cents: 5 },
    { atS: 2.5, cents: 40 },
  ],
  fromS: 0,
  toS: 3,
  lowCents: -63,
  highCents: null,
  marks: [{ atS: 1, cents: -63, isMissed: false }],
  others: [{ partial: 3, cents: -498 }],
};

const part = (svg: SVGSVGElement, name: string) => svg.querySelectorAll(`[data-part=${name}]`);

describe("the strip of pitch", () => {
  it("has the end that was found, no other, and a hole where the pitch is another note's", () => {
    const { svg, y, plot } = pitchStrip(strip, laptop);
    expect(part(svg, "low-end")).toHaveLength(1);
    expect(part(svg, "high-end")).toHaveLength(0);
    expect(part(svg, "hit")).toHaveLength(1);
    expect(text(svg)).toContain("−63");
    expect(description(svg)).toContain("Low end of the slot at −63 cents.");
    const runs = part(svg, "pitch")[0].getAttribute("d")!.match(/M/g)!;
    expect(runs).toHaveLength(2);
    expect(y.invert(plot.bottom)).toBeGreaterThan(-250);
  });

  it("reaches as far as slips do where notes are slurred, and names them", () => {
    const { svg } = pitchStrip(
      { ...strip, reachCents: 900, marks: [{ atS: 1.5, cents: -500, isMissed: true }] },
      laptop,
    );
    expect(part(svg, "missed")).toHaveLength(1);
    expect(text(svg)).toContain("3 G");
  });

  it("draws silence, and has every point in its table", () => {
    const empty = { ...strip, points: [], lowCents: null, marks: [] };
    expect(description(pitchStrip(empty, laptop).svg)).toBe("Nothing has been heard yet.");
    expect(pitchStripTable(strip).rows).toHaveLength(6);
  });
});

const gap = (gapMm: number, value: number) =>
  ({ gapMm, takes: 2, repeats: 3, value, interval: [value - 10, value + 10] }) as const;
const chart: ListenedChart = {
  note: {
    test: "slot",
    partial: 4,
    toPartial: null,
    gaps: [gap(2, 100), gap(3, 110)],
    basis: "takes",
    change: null,
    scatter: null,
  },
  model: [
    { gapMm: 0, cents: 200 },
    { gapMm: 6, cents: 206 },
  ],
};

describe("measured over gap", () => {
  it("draws what was measured as it is, the model beside it as it is", () => {
    const { svg, y } = listenedChart(chart, laptop);
    expect(part(svg, "measured")).toHaveLength(2);
    const [first] = part(svg, "model")[0]
      .getAttribute("d")!
      .match(/(?<=,)[\d.]+/)!;
    expect(y.invert(Number(first))).toBeCloseTo(201.6, 0);
    expect(y.domain()[0]).toBeLessThanOrEqual(90);
    expect(description(svg)).toContain("110 ± 10 cents at 3.00 mm");
  });

  it("draws shares in per cent, without a model", () => {
    const share = { ...gap(2, 0.2), interval: [0.1, 0.4] } as const;
    const { svg } = listenedChart(
      { note: { ...chart.note, test: "attack", gaps: [share] }, model: [] },
      laptop,
    );
    expect(part(svg, "model")).toHaveLength(0);
    expect(text(svg)).toContain("missed, %");
  });

  it("has both in its table", () => {
    const { columns, rows } = listenedTable(chart, "mm");
    expect(columns).toContain("slot width (cents)");
    expect(rows.map(([of]) => of)).toEqual(["this player", "this player", "model", "model"]);
  });
});
