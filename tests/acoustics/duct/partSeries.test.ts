import { describe, expect, it } from "vitest";
import { FIXED } from "../../../src/acoustics/duct/line.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../setups.ts";

describe("the fixed parts sampled part by part, each as a series in √f", () => {
  it.each(["demo", "cornet", "flugelhorn", "horn-f", "tenor-trombone-small", "tuba"] as const)(
    "%s: what every section passed gives, for half the work",
    async (name) => {
      const setup = name === "demo" ? demo() : await standIn(name);
      const { line, lowest, highest } = new Instrument(setup).column;
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
});
