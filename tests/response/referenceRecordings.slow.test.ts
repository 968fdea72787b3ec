import { readFileSync } from "node:fs";
import decodeWav from "@audio/decode-wav";
import { describe, expect, it } from "vitest";
import { responseOf } from "../../src/response/response.ts";
import type { Sound } from "../../src/response/sound.ts";
import { expectPoles } from "./expectPoles.ts";

const folder = new URL("../reference/response/", import.meta.url);
function wav(name: string): Sound {
  const { channelData, sampleRate } = decodeWav(readFileSync(new URL(name, folder)));
  return { samples: channelData[0], rate: sampleRate };
}

interface Truth {
  readonly recordings: readonly {
    readonly file: string;
    readonly excitation: string;
    readonly resonances: readonly { readonly hz: number; readonly q: number }[];
    readonly delay_s: number;
    readonly snr_db: number;
    readonly tolerance: { readonly cents: number; readonly q_percent: number };
  }[];
}
const truth: Truth = JSON.parse(readFileSync(new URL("truth.json", folder), "utf8"));

// made with SciPy by make_sweeps.py beside them: A. Farina 2000; A. Novak, P. Lotton and L. Simon 2015
describe("the reference recordings", () => {
  it.each(truth.recordings)("$file: its ten poles, no other, the delay and the noise", (of) => {
    const found = responseOf(wav(of.excitation), wav(of.file));
    const { cents: mostCents, q_percent } = of.tolerance;
    expectPoles(found, { poles: of.resonances.map(({ hz, q }) => [hz, q]) }, mostCents, q_percent);
    expect(found.delay).toBeCloseTo(of.delay_s, 4);
    expect(found.signalToNoiseDb).toBeCloseTo(of.snr_db, 0);
    expect(found.warnings).toEqual([]);
  });
});
