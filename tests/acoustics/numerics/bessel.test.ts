import { describe, expect, it } from "vitest";
import { besselOdd, zeroOfJ1 } from "../../../src/acoustics/numerics/bessel.ts";
import { numbers } from "../../reference/table.ts";

describe("Bessel functions", () => {
  it("has the zeros of J₁ of Abramowitz & Stegun, table 9.5", () => {
    for (const [k, zero] of numbers("numerics/bessel-zeros.csv")) expect(zeroOfJ1(k)).toBeCloseTo(zero, 11);
  });

  it("has values of Abramowitz & Stegun, tables 9.1 and 9.2", () => {
    const out = new Float64Array(5);
    besselOdd(1, 4, out);
    expect(out[0]).toBeCloseTo(0.7651976866, 10);
    expect(out[1]).toBeCloseTo(0.4400505857, 10);
    expect(out[2]).toBeCloseTo(0.019563354, 10);
    besselOdd(10, 4, out);
    expect(out[0]).toBeCloseTo(-0.2459357645, 10);
    expect(out[1]).toBeCloseTo(0.0434727462, 10);
    expect(out[2]).toBeCloseTo(0.0583793793, 10);
    expect(out[3]).toBeCloseTo(-0.2340615282, 10);
  });

  it("recurs the same up and down: both methods meet where they change over", () => {
    const up = new Float64Array(18);
    const down = new Float64Array(18);
    // 17 orders reach 33: at 34.5 upward recurrence is used, for 18 orders downward
    besselOdd(34.5, 17, up);
    const more = new Float64Array(25);
    besselOdd(34.5, 24, more);
    down.set(more.subarray(0, 18));
    for (let q = 0; q < 18; q++) expect(Math.abs(up[q] - down[q])).toBeLessThan(1e-12);
  });
});
