import { describe, expect, it } from "vitest";
import { moistAir, waterFraction } from "../../../src/acoustics/medium/air.ts";
import { numbers } from "../../reference/table.ts";

const relative = (value: number, reference: number) => Math.abs(value / reference - 1);

describe("moist air", () => {
  it("has the constants of IEC 61094-2 table F.1", () => {
    const rows = numbers("medium/moist-air.csv");
    expect(rows.length).toBe(2);
    for (const [temperatureC, humidity, co2, pressurePa, ...printed] of rows) {
      const [density, soundSpeed, heatRatio, viscosity, diffusivity] = printed;
      const air = moistAir({ temperatureC, humidity, co2, pressurePa });
      expect(relative(air.density, density)).toBeLessThan(2e-7);
      expect(relative(air.soundSpeed, soundSpeed)).toBeLessThan(2e-7);
      expect(relative(air.heatRatio, heatRatio)).toBeLessThan(2e-7);
      expect(relative(air.viscosity, viscosity)).toBeLessThan(2e-7);
      expect(relative(air.thermalDiffusivity, diffusivity)).toBeLessThan(2e-7);
      // Pr = μ/(ρ α), the same numbers once more
      expect(relative(air.prandtl, viscosity / (density * diffusivity))).toBeLessThan(1e-6);
    }
  });

  it("stays near dry-air tables at a player's temperature", () => {
    // Air at 300 K, 1 atm: μ = 18.46e-6 Pa·s, Pr = 0.707 (Incropera & DeWitt, table A.4, from memory)
    const air = moistAir({ temperatureC: 26.85, humidity: 0, co2: 0.0004, pressurePa: 101325 });
    expect(relative(air.viscosity, 18.46e-6)).toBeLessThan(2e-3);
    // the standard's conductivity is 2 % below that table's, a third of a per cent of the whole wall loss
    expect(relative(air.prandtl, 7.07e-1)).toBeLessThan(2.5e-2);
    // c = √(γRT/M) of an ideal gas, M = 28.965 g/mol
    expect(relative(air.soundSpeed, Math.sqrt((1.4 * 8.314463 * 300) / 0.028965))).toBeLessThan(1e-3);
  });

  it("holds no water when dry, and about 2.3 % at saturation and 20 °C", () => {
    const climate = { temperatureC: 20, humidity: 0, co2: 0.0004, pressurePa: 101325 };
    expect(waterFraction(climate)).toBe(0);
    // saturation pressure 2.339 kPa at 20 °C (steam tables)
    expect(relative(waterFraction({ ...climate, humidity: 1 }), 2339 / 101325)).toBeLessThan(6e-3);
  });

  it("carries sound faster when warmer, wetter, and slower with a breath's carbon dioxide", () => {
    const c = (temperatureC: number, humidity: number, co2: number) =>
      moistAir({ temperatureC, humidity, co2, pressurePa: 101325 }).soundSpeed;
    expect(c(30, 0.5, 0.0004)).toBeGreaterThan(c(20, 0.5, 0.0004));
    expect(c(20, 1, 0.0004)).toBeGreaterThan(c(20, 0, 0.0004));
    expect(c(20, 0.5, 0.04)).toBeLessThan(c(20, 0.5, 0.0004));
  });
});
