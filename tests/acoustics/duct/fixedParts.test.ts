import { describe, expect, it } from "vitest";
import { FixedParts } from "../../../src/acoustics/duct/fixedParts.ts";
import { FIXED, Line, UPPER } from "../../../src/acoustics/duct/line.ts";
import { demo } from "../setups.ts";

const LOW = 40;
const HIGH = 1800;

describe("the fixed parts as series in frequency", () => {
  const line = new Line(demo(), null, null, HIGH);
  const parts = new FixedParts(line, LOW, HIGH);
  /** Of each function's largest size, the worst difference from the line itself. */
  const worst = (isDrawn: boolean, doubles: number): number => {
    const [series, exact] = [new Float64Array(FIXED), new Float64Array(FIXED)];
    const [largest, off] = [new Float64Array(FIXED / 2), new Float64Array(FIXED / 2)];
    for (let k = 0; k <= 50; k++) {
      const hz = LOW + ((HIGH - LOW) * k) / 50;
      parts.evaluate(hz, 0, series, isDrawn);
      line.fixed(2 * Math.PI * hz, 0, exact);
      for (let i = 0; i < doubles; i += 2) {
        largest[i / 2] = Math.max(largest[i / 2], Math.hypot(exact[i], exact[i + 1]));
        off[i / 2] = Math.max(off[i / 2], Math.hypot(series[i] - exact[i], series[i + 1] - exact[i + 1]));
      }
    }
    return Math.max(...Array.from({ length: doubles / 2 }, (_, i) => off[i] / largest[i]));
  };

  it("are the line's within a billionth, and leave what only a drawn slide asks for alone", () => {
    expect(parts.atRest.isResolved).toBe(true);
    expect(worst(false, UPPER)).toBeLessThan(1e-9);
    const out = new Float64Array(FIXED).fill(7);
    parts.evaluate(233, 0, out);
    expect([...out.subarray(UPPER)]).toEqual(Array(FIXED - UPPER).fill(7));
    expect(out[0]).not.toBe(7);
  });

  it("have the parts around a drawn slide too, from parts of the bore that are known by then", () => {
    const before = line.passed;
    expect(worst(true, FIXED)).toBeLessThan(1e-9);
    // the line's own evaluations are all that is passed
    expect(line.passed - before).toBe(51 * line.sections);
  });
});
