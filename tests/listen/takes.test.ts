/**
 * Takes rendered from recordings of real brass, whose pitch is known and was checked by an independent program for phonetics
 * (tests/reference/listen): every tolerance is the one stated there.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { listenTo } from "../../src/listen/take.ts";
import type { TakeQuestion } from "../../src/listen/takeQuestion.ts";
import { cents } from "../../src/listen/track.ts";
import { wavBlocks } from "../../src/listen/wav.ts";

interface Truth {
  readonly file: string;
  readonly test: TakeQuestion["test"];
  readonly options: readonly string[];
  readonly sample_rate_hz: number;
  readonly seconds: number;
  readonly clipped_samples: number;
  readonly tolerance: Record<string, number>;
  readonly notes?: readonly { from_s: number; to_s: number; hz: number; whole_hz: number }[];
  readonly slot?: {
    rest_hz: number;
    low_hz: number;
    high_hz: number;
    width_cents: number;
    low_break: boolean;
    high_break: boolean;
  };
  readonly bends?: readonly { at_s: number; cents: number; breaks: boolean }[];
  readonly slurs?: readonly {
    at_s: number;
    landed_hz: number;
    to_hz: number;
    result: string;
    settle_s: number | null;
  }[];
  readonly attacks?: readonly { at_s: number; landed_hz: number; result: string; settle_s?: number }[];
}

const folder = new URL("../reference/listen/", import.meta.url);
const { takes } = JSON.parse(readFileSync(new URL("truth.json", folder), "utf8")) as { takes: Truth[] };
const of = (test: string) => takes.filter((take) => take.test === test);

const known = new Map<string, ReturnType<typeof listenTo>>();

/** What is heard in a take, listened to once. */
function heard({ file, test, options }: Truth): ReturnType<typeof listenTo> {
  const before = known.get(file);
  if (before) return before;
  const hertz = (name: string) => {
    const at = options.indexOf(name);
    return at < 0 ? [] : options[at + 1].split(",").map((text) => Number.parseFloat(text));
  };
  const bytes = new Uint8Array(readFileSync(new URL(file, folder)));
  const question = { test, nearHz: hertz("--near")[0] ?? null, notesHz: hertz("--notes") };
  const take = listenTo(() => wavBlocks([bytes]), question);
  known.set(file, take);
  return take;
}

const kinds = (take: ReturnType<typeof heard>) => take.warnings.map(({ kind }) => kind);

describe("takes of real brass", () => {
  it("are the twelve of the reference", () => {
    expect(["steady", "slot", "slur", "attack"].map((test) => of(test).length)).toEqual([8, 2, 1, 1]);
  });

  it.each(of("steady"))("$file: pitch of held notes, none too many", (truth) => {
    const take = heard(truth);
    if (take.test !== "steady") throw new Error("asked for held notes");
    expect(take.sampleRateHz).toBe(truth.sample_rate_hz);
    expect(take.levels.seconds).toBeCloseTo(truth.seconds, 2);
    expect(take.levels.clippedSamples).toBe(truth.clipped_samples);
    expect(take.notes.length).toBe(truth.notes?.length);
    truth.notes?.forEach(({ from_s, to_s, hz, whole_hz }, i) => {
      const note = take.notes[i];
      // settled, or over the whole note: both are right
      const off = Math.min(Math.abs(cents(note.hz, hz)), Math.abs(cents(note.hz, whole_hz)));
      expect(off).toBeLessThan(truth.tolerance.steady_cents);
      expect(Math.abs(note.fromS - from_s)).toBeLessThan(0.1);
      expect(Math.abs(note.toS - to_s)).toBeLessThan(0.1);
      expect(note.uCents).toBeLessThan(0.5);
    });
  });

  it("noise alone has no note and a warning; a clipped take has one, the clean ones none", () => {
    const warned = Object.fromEntries(of("steady").map((truth) => [truth.file, kinds(heard(truth))]));
    expect(warned["noise-only.wav"]).toContain("nothing-heard");
    expect(warned["clipped.wav"]).toEqual(["clipped"]);
    for (const file of [
      "steady-tuba-small-microphone.wav",
      "steady-trumpet-three.wav",
      "steady-trumpet-high.wav",
    ])
      expect(warned[file]).toEqual([]);
  });

  it.each(of("slot"))("$file: edges and width of the slot, and that they broke", (truth) => {
    const take = heard(truth);
    if (take.test !== "slot" || !take.slot || !truth.slot || !truth.bends)
      throw new Error("asked for a slot");
    const { slot } = take;
    expect(Math.abs(cents(slot.restHz, truth.slot.rest_hz))).toBeLessThan(1.5);
    expect(Math.abs(cents(slot.low?.hz ?? 0, truth.slot.low_hz))).toBeLessThan(truth.tolerance.edge_cents);
    expect(Math.abs(cents(slot.high?.hz ?? 0, truth.slot.high_hz))).toBeLessThan(truth.tolerance.edge_cents);
    expect(Math.abs((slot.widthCents ?? 0) - truth.slot.width_cents)).toBeLessThan(
      truth.tolerance.width_cents,
    );
    expect([slot.low?.breaks, slot.high?.breaks]).toEqual([truth.slot.low_break, truth.slot.high_break]);
    expect(slot.bends.length).toBe(truth.bends.length);
    truth.bends.forEach((bend, i) => {
      expect(Math.abs(slot.bends[i].atS - bend.at_s)).toBeLessThan(0.03);
      expect(Math.abs(slot.bends[i].cents - bend.cents)).toBeLessThan(truth.tolerance.edge_cents);
    });
  });

  it.each(of("slur"))("$file: where each slur landed", (truth) => {
    const take = heard(truth);
    if (take.test !== "slur" || !take.slurs || !truth.slurs) throw new Error("asked for slurs");
    const { slurs, missed } = take.slurs;
    expect(slurs.map(({ result }) => result)).toEqual(truth.slurs.map(({ result }) => result));
    truth.slurs.forEach((slur, i) => {
      expect(Math.abs(slurs[i].atS - slur.at_s)).toBeLessThan(0.02);
      expect(Math.abs(cents(slurs[i].landedHz, slur.landed_hz))).toBeLessThan(5);
      expect(Math.abs(cents(slurs[i].toHz, slur.to_hz))).toBeLessThan(5);
      if (slur.settle_s === null) expect(slurs[i].settleS).toBeNull();
      else expect(Math.abs((slurs[i].settleS ?? 9) - slur.settle_s)).toBeLessThan(0.03);
    });
    expect(missed).toMatchObject({ count: 2, of: 8 });
    // Wilson's interval of 2 of 8
    expect(missed.interval[0]).toBeCloseTo(0.0715, 3);
    expect(missed.interval[1]).toBeCloseTo(0.5907, 3);
  });

  it.each(of("attack"))("$file: what spoke first", (truth) => {
    const take = heard(truth);
    if (take.test !== "attack" || !take.attacks || !truth.attacks) throw new Error("asked for attacks");
    const { attacks } = take.attacks;
    expect(attacks.map(({ result }) => result)).toEqual(truth.attacks.map(({ result }) => result));
    truth.attacks.forEach((attack, i) => {
      expect(Math.abs(attacks[i].atS - attack.at_s)).toBeLessThan(0.04);
      // a note begins a little flat or sharp
      expect(Math.abs(cents(attacks[i].landedHz, attack.landed_hz))).toBeLessThan(50);
      if (attack.settle_s !== undefined)
        expect(Math.abs((attacks[i].settleS ?? 9) - attack.settle_s)).toBeLessThan(0.03);
    });
  });
});
