/** A take as it comes is a take as a file has it; what is kept of it comes back from any JSON whole or not at all. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { measuredIn, readTakes } from "../../src/listen/keptTake.ts";
import { LiveTake } from "../../src/listen/liveTake.ts";
import { listenTo } from "../../src/listen/take.ts";
import { wavBlocks } from "../../src/listen/wav.ts";
import { BLOCK } from "../../workers/microphone/captureProtocol.ts";
import { sound } from "./sounds.ts";

const bytes = new Uint8Array(readFileSync(new URL("../reference/listen/slot-trumpet.wav", import.meta.url)));
const question = { test: "slot", nearHz: 466, notesHz: [] } as const;
const [whole] = [...wavBlocks([bytes])];

function live() {
  const take = new LiveTake(whole.sampleRateHz, question);
  const edges: (number | null)[] = [];
  for (let from = 0; from < whole.channels[0].length; from += 1024) {
    take.push([whole.channels[0].subarray(from, from + 1024)]);
    if (from % 8192 === 0) edges.push(take.edges()?.lowHz ?? null);
  }
  return { take, edges };
}

describe("a take while it is played", () => {
  const { take, edges } = live();

  it("comes to what a file of it comes to", () => {
    expect(take.finish()).toEqual(listenTo(() => wavBlocks([bytes]), question));
  });

  it("has the low end before the take is over, and its pitch from the first note on", () => {
    expect(edges[0]).toBeNull();
    const found = edges.filter((edge) => edge !== null);
    expect(found.length).toBeGreaterThan(edges.length / 3);
    expect(Math.abs(1200 * Math.log2(found[0]! / 449.05))).toBeLessThan(8);
    expect(take.points().length).toBeGreaterThan(1000);
    expect(take.points(take.points().length - 2)).toHaveLength(2);
  });

  it.each([
    [932, 0.03],
    [466, 0.03],
    [117, 0.04],
    [58, 0.064],
  ])("tells %i Hz so soon that it is drawn within 80 ms of its sound", (hz, mostS) => {
    const rateHz = 48_000;
    const live = new LiveTake(rateHz, { test: "slot", nearHz: hz, notesHz: [] });
    const samples = sound(rateHz, 1.5, [{ hz, fromS: 0.1, toS: 1.4 }]);
    let told = 0;
    let worstS = 0;
    for (let at = BLOCK; at <= samples.length; at += BLOCK) {
      live.push([samples.subarray(at - BLOCK, at)]);
      for (const { atS } of live.points(told)) {
        told++;
        worstS = Math.max(worstS, at / rateHz - atS);
      }
    }
    expect(told).toBeGreaterThan(50);
    // a screen's frame of 16 ms comes after it
    expect(worstS).toBeLessThan(mostS);
  });

  it("needs a note", () => {
    expect(() => new LiveTake(48_000, { test: "slot", nearHz: null, notesHz: [] })).toThrow(/note/);
  });
});

describe("what is kept of a take", () => {
  const measured = measuredIn(live().take.finish(), 466)!;
  const kept = {
    id: "a",
    at: "2026-03-01T09:00:00.000Z",
    partial: 4,
    toPartial: null,
    gapMm: 2.5,
    blind: null,
    measured,
    warnings: ["noisy"],
    hasSound: true,
  };

  it("is its ends, bend by bend, and comes back as it was", () => {
    expect(measured).toMatchObject({ test: "slot", broke: 4 });
    expect(readTakes(JSON.parse(JSON.stringify([kept])))).toEqual([kept]);
  });

  it("is nothing where nothing was heard", () => {
    const silence = new LiveTake(16_000, question);
    silence.push([new Float32Array(16_000)]);
    expect(measuredIn(silence.finish(), 466)).toBeNull();
  });

  it("is left out where any of it was spoilt, and never stands there twice", () => {
    const spoilt = [
      { ...kept, partial: 0 },
      { ...kept, gapMm: null },
      { ...kept, gapMm: -1 },
      { ...kept, blind: { trial: "t", code: "A1B" } },
      { ...kept, toPartial: 5 },
      { ...kept, measured: { ...measured, lowCents: ["-60"] } },
      { ...kept, measured: { test: "slur", missed: 3, of: 2 } },
      { ...kept, measured: { test: "whistle" } },
      null,
      7,
    ];
    expect(readTakes(spoilt)).toEqual([]);
    expect(readTakes([kept, kept])).toHaveLength(1);
    expect(readTakes({})).toEqual([]);
    const blind = { ...kept, gapMm: null, blind: { trial: "t", code: "A1B" } };
    expect(readTakes([blind])).toEqual([blind]);
  });
});
