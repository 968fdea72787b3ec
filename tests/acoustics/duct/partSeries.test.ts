import { describe, expect, it } from "vitest";
import { Chain, chainOf } from "../../../src/acoustics/duct/chain.ts";
import { FIXED } from "../../../src/acoustics/duct/line.ts";
import { seriesOf } from "../../../src/acoustics/duct/partSeries.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../setups.ts";

describe("the fixed parts sampled part by part, each as a series in √f", () => {
  it.each(["demo", "cornet", "flugelhorn", "horn-f", "tenor-trombone-small", "tuba"] as const)(
    "%s: what every section passed gives, for half the work",
    async (name) => {
      const setup = name === "demo" ? demo() : await standIn(name);
      const { line, lowest, highest: end } = new Instrument(setup).column;
      // a range of its own, which no part has been asked for
      const highest = 0.999 * end;
      const before = line.passed;
      const sample = line.sampled(lowest, highest);
      const spent = (line.passed - before) / line.sections;
      const sampled = new Float64Array(FIXED);
      const exact = new Float64Array(FIXED);
      const largest = new Float64Array(FIXED / 2);
      const off = new Float64Array(FIXED / 2);
      const steps = 60;
      for (let k = 0; k <= steps; k++) {
        const hz = lowest + ((highest - lowest) * k) / steps;
        sample(hz, sampled);
        line.fixed(2 * Math.PI * hz, 0, exact);
        off.forEach((worst, i) => {
          const [re, im] = [2 * i, 2 * i + 1];
          largest[i] = Math.max(largest[i], Math.hypot(exact[re], exact[im]));
          off[i] = Math.max(worst, Math.hypot(sampled[re] - exact[re], sampled[im] - exact[im]));
        });
      }
      off.forEach((worst, i) => {
        expect(worst / largest[i]).toBeLessThan(1e-10);
      });
      expect(spent).toBeLessThan(60);
    },
  );

  it("are had in common by instruments that differ in one part, bit for bit", () => {
    const setup = demo();
    const wider = {
      ...setup,
      leadpipe: { profileMm: setup.leadpipe.profileMm.map(([x, d]) => [x, 1.01 * d] as const) },
    };
    new Instrument(setup);
    const { line, lowest, highest } = new Instrument(wider).column;
    const parts = [0, 1, 2].map((by) => {
      const { bore } = line;
      const factor = bore.wallLossFactor + by * 1e-9;
      return chainOf(bore.mouthpiece, factor, bore.junction);
    });
    expect(new Set(parts).size).toBe(3);
    expect(chainOf(structuredClone(line.bore.mouthpiece), line.bore.wallLossFactor, line.bore.junction)).toBe(
      parts[0],
    );
    const own = new Chain(line.bore.mouthpiece, line.bore.wallLossFactor, line.bore.junction);
    const [shared, alone] = [parts[0], own].map((chain) => {
      const port = new Float64Array(8);
      seriesOf(chain, lowest, highest, line.soundSpeed).twoPort(2 * Math.PI * 300, 0, port);
      return port;
    });
    expect(parts[0].passed).toBeGreaterThan(0);
    expect(shared).toEqual(alone);
  });

  it("are not had in common where a radius, a length, the air or a resistance differs", () => {
    const { mouthpiece, wallLossFactor, junction } = new Instrument(demo()).column.line.bore;
    const first = chainOf(mouthpiece, wallLossFactor, junction);
    const [piece, ...rest] = mouthpiece;
    const others = [
      { ...piece, radiusIn: piece.radiusIn + 1e-9 },
      { ...piece, radiusOut: piece.radiusOut + 1e-9 },
      { ...piece, length: piece.length + 1e-9 },
      { ...piece, resistance: 1 },
      ...(["density", "soundSpeed", "viscosity", "heatRatio", "prandtl"] as const).map((key) => ({
        ...piece,
        air: { ...piece.air, [key]: piece.air[key] * (1 + 1e-9) },
      })),
    ].map((other) => chainOf([other, ...rest], wallLossFactor, junction));
    expect(others).toHaveLength(9);
    expect(new Set([first, ...others]).size).toBe(10);
    expect(chainOf(rest, wallLossFactor, junction)).not.toBe(first);
  });
});
