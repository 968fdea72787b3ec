import { describe, expect, it } from "vitest";
import { annulus } from "./run.ts";

const demo = "shared/demo.setup.json";

describe("annulus verdicts", () => {
  it("has a line for every claim of the trade, each with what other thresholds would find", () => {
    const { stdout } = annulus(["verdicts", demo, "--gap", "0.2in", "--format", "json"]);
    const { claims, just_noticeable, instrument } = JSON.parse(stdout);
    expect(instrument).toBe("b-flat-trumpet");
    expect(claims.map(({ claim }: { claim: string }) => claim)).toEqual([
      "slots",
      "resistance",
      "noGap",
      "tenth",
      "tooWide",
      "tooNarrow",
      "attack",
      "brightness",
      "octaves",
      "shoulder",
      "sameMake",
    ]);
    for (const one of claims) {
      expect(one.words).not.toMatch(/NaN|undefined|Infinity/);
      expect(one.finding_at_half_just_noticeable === null).toBe(one.tests.length === 0);
    }
    const slots = claims[0];
    expect(slots.tests[0].just_noticeable).toBe(20);
    expect(slots.finding).toBe("too small to notice");
    expect(just_noticeable).toMatchObject({ pitch_cents: 3.5, slot_width_cents: 20, pressure_percent: 10 });
    expect(just_noticeable.sources.join(" ")).toMatch(/Nederveen & Dalmont 2008.*Kopiez 2003/);
  });

  it("reads as sentences, and asks for a gap", () => {
    const { stdout } = annulus(["verdicts", demo, "--gap", "0.1in"]);
    expect(stdout).toContain("“A wider gap makes notes slot more firmly.”\n  Model: ");
    expect(annulus(["verdicts", demo]).status).toBe(2);
  });
});
