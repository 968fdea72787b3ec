import { describe, expect, test } from "vitest";
import { FIXED, Line } from "../../../src/acoustics/duct/line.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { DISTANCE, RadiatedSound } from "../../../src/study/feel/radiatedSound.ts";
import { demo } from "../../acoustics/setups.ts";

const RATE = 48000;
// the sound is that of plane waves in the bell, whatever the setup says
const line = new Line(withBell(demo(), "plane"));
const radiated = new RadiatedSound(demo());

/** |H| of a small source of the bell's flow, the line followed section by section. */
function direct(gapMm: number, hz: number): number {
  const omega = 2 * Math.PI * hz;
  let bellFlow = 0;
  let rimPressure = 0;
  line.trace(
    line.gap(gapMm / 1000),
    0,
    omega,
    (fromBell, _, [pRe, pIm, uRe, uIm]) => {
      if (fromBell === 0) bellFlow = Math.hypot(uRe, uIm);
      rimPressure = Math.hypot(pRe, pIm);
    },
    1,
  );
  return (omega * line.bore.bellAir.density * bellFlow) / (4 * Math.PI * DISTANCE * rimPressure);
}

function spectrum(response: Float32Array, hz: number): number {
  let re = 0;
  let im = 0;
  response.forEach((value, i) => {
    re += value * Math.cos((2 * Math.PI * hz * i) / RATE);
    im -= value * Math.sin((2 * Math.PI * hz * i) / RATE);
  });
  return Math.hypot(re, im);
}

describe("the way from cup to ear", () => {
  test.each([0, 2.5, 12])("at a gap of %s mm the response has the line's own transfer", (gapMm) => {
    const response = radiated.response(gapMm, RATE);
    for (const hz of [233, 311, 466, 587, 932, 1400, 2100, 3700, 5500])
      expect(Math.abs(20 * Math.log10(spectrum(response, hz) / direct(gapMm, hz)))).toBeLessThan(0.6);
  });

  test("nothing is heard before it has come through the bore, and the end is faded", () => {
    const response = radiated.response(2.5, RATE);
    const largest = Math.max(...response.map(Math.abs));
    const arrives = Math.floor((line.length / line.soundSpeed) * RATE);
    const before = response.subarray(0, arrives - Math.round(0.0005 * RATE));
    expect(Math.max(...before.map(Math.abs))).toBeLessThan(0.03 * largest);
    expect(Math.abs(response[response.length - 1])).toBeLessThan(1e-4 * largest);
    expect(spectrum(response, 0)).toBeLessThan(0.3 * spectrum(response, 100));
  });

  test("another sampling rate is the same sound", () => {
    const [fine, coarse] = [radiated.response(2.5, 48000), radiated.response(2.5, 24000)];
    for (let i = 0; i < coarse.length - 1; i += 7) expect(coarse[i] / 2).toBeCloseTo(fine[2 * i], 9);
  });

  test("a wide multimodal bell, which is answered to 5 kHz only, is heard as one of plane waves", () => {
    const { body, model, ...rest } = demo();
    const profileMm = body.profileMm.map(([x, d], i, all) => [x, i === all.length - 1 ? 260 : d] as const);
    const wide = (bell: Setup["model"]["bell"]): Setup => ({
      ...rest,
      body: { ...body, profileMm },
      model: { ...model, bell },
    });
    expect(() => new Line(wide("multimodal")).fixed(2 * Math.PI * 6000, 0, new Float64Array(FIXED))).toThrow(
      /too high for model\.bell "multimodal"/,
    );
    const [plane, multimodal] = (["plane", "multimodal"] as const).map((bell) =>
      new RadiatedSound(wide(bell)).response(2.5, RATE),
    );
    expect(multimodal).toEqual(plane);
  });
});
