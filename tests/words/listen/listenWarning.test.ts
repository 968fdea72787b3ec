import { describe, expect, it } from "vitest";
import type { ListenWarning } from "../../../src/listen/warnings.ts";
import { listenWarningWords } from "../../../src/words/listen/listenWarning.ts";

/** One of each kind: the type makes a kind that is missing here an error. */
const EACH: { readonly [Kind in ListenWarning["kind"]]: ListenWarning & { kind: Kind } } = {
  clipped: { kind: "clipped", samples: 1766 },
  "too-quiet": { kind: "too-quiet", levelDbfs: -58.4 },
  noisy: { kind: "noisy", signalToNoiseDb: 11.6 },
  telephone: { kind: "telephone" },
  hum: { kind: "hum", hz: 50.01 },
  "nothing-heard": { kind: "nothing-heard" },
  "other-sounds": { kind: "other-sounds", seconds: 0.84 },
  unclear: { kind: "unclear", share: 0.55 },
  mixed: { kind: "mixed", share: 0.12 },
  beating: { kind: "beating", count: 12 },
  unsteady: { kind: "unsteady", scatterCents: 12.3 },
  "wrong-note": { kind: "wrong-note", hz: 349.96, nearHz: 466 },
  "unlisted-note": { kind: "unlisted-note", hz: 800 },
  "no-bend": { kind: "no-bend", side: "low" },
  "one-bend": { kind: "one-bend", side: "high" },
  "mixed-ends": { kind: "mixed-ends", side: "low" },
  "turned-back": { kind: "turned-back", count: 2 },
  "cut-off": { kind: "cut-off" },
  interrupted: { kind: "interrupted", count: 1 },
  stayed: { kind: "stayed", count: 3 },
  "pair-unsure": { kind: "pair-unsure", hz: [349.2, 466.1] },
  few: { kind: "few", count: 3, of: "slurs" },
};

describe("warnings about a take", () => {
  it("are one plain sentence or two each, with their numbers", () => {
    const said = Object.values(EACH).map(listenWarningWords);
    expect(said.length).toBe(22);
    expect(new Set(said).size).toBe(22);
    for (const words of said) {
      expect(words).toMatch(/^[A-Z].*[.?]$/);
      expect(words).not.toMatch(/NaN|undefined|null|Infinity/);
    }
    expect(listenWarningWords(EACH["wrong-note"])).toBe(
      "A note of 350.0 Hz was played where 466.0 Hz was meant.",
    );
    expect(listenWarningWords(EACH["turned-back"])).toMatch(/came back twice before the note broke/);
    expect(listenWarningWords(EACH["no-bend"])).toMatch(/^No bend down was found/);
    expect(listenWarningWords({ kind: "too-quiet", levelDbfs: null })).toMatch(/^The recording is silent/);
  });
});
