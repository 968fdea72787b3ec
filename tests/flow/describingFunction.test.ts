import { describe, expect, it } from "vitest";
import { firstHarmonicResistance } from "../../src/flow/describingFunction.ts";
import { numbers } from "../reference/table.ts";

const rows = numbers("flow/oscillation.csv");

describe("the describing function of a quadratic loss", () => {
  it("is the first harmonic over a cycle, also where out- and inflow differ", () => {
    const cases = rows.filter(([kind]) => kind === 0);
    expect(cases.length).toBe(3);
    for (const [, out, back, amplitude, , , , value] of cases) {
      const loss = ((out + back) / 2) * amplitude ** 2;
      expect(firstHarmonicResistance(loss, amplitude) / value).toBeCloseTo(1, 10);
    }
  });

  it("is (4/3π) ρK|U|/S²", () => {
    const [density, K, U, S] = [1.2, 0.6, 1e-4, 1.1e-5];
    const loss = 0.5 * density * K * (U / S) ** 2;
    expect(firstHarmonicResistance(loss, U)).toBeCloseTo(((4 / (3 * Math.PI)) * density * K * U) / S ** 2, 6);
  });

  it("gives the flow a sine of pressure drives through mass and loss, within 2 % of integration in time", () => {
    const cases = rows.filter(([kind]) => kind === 1);
    expect(cases.length).toBe(3);
    for (const [, k, , pressure, omega, mass, resistance, amplitude] of cases) {
      let flow = pressure / (omega * mass);
      for (let i = 0; i < 200; i++) {
        const total = resistance + firstHarmonicResistance(k * flow * flow, flow);
        flow = Math.sqrt((flow * pressure) / Math.hypot(total, omega * mass));
      }
      expect(Math.abs(flow / amplitude - 1)).toBeLessThan(0.02);
      // and that the loss matters in the case at all
      expect(flow).toBeLessThan(0.995 * (pressure / Math.hypot(resistance, omega * mass)));
    }
  });
});
