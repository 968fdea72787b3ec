import { describe, expect, it } from "vitest";
import { developing } from "../../src/flow/entrance.ts";
import { contractionCoefficient, roundedPart, throatEdgeLoss } from "../../src/flow/throatEdge.ts";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { resistance } from "../../src/study/blown/resistance.ts";
import { demo } from "../acoustics/setups.ts";
import { numbers } from "../reference/table.ts";
import { exampleFile } from "../setup/example.ts";

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

describe("a stream that enters a pipe flat", () => {
  it("begins without a loss and ends as Hagen–Poiseuille's, 64/Re of a diameter", () => {
    expect(developing(0, 1000)).toEqual({ loss: 0, kineticFactor: 1, coreOverMean: 1 });
    const [near, far] = [200, 201].map((distance) => developing(distance, 1000));
    expect(far.loss - near.loss).toBeCloseTo(0.064, 12);
    expect(far.kineticFactor).toBeCloseTo(2, 12);
    // with the pressure that speeds its core up, 1.16 more than the developed pipe: Schiller's number, from memory
    expect(near.loss + near.kineticFactor - 1 - 0.064 * 200).toBeCloseTo(1.16, 2);
  });

  it("loses at first what Blasius' layer does: 4 · 1.044 √(x/(D Re)), to an eighth, about what a parabola is off", () => {
    for (const x of [1e-7, 1e-6])
      expect(Math.abs(developing(x, 1).loss / (4 * 1.044 * Math.sqrt(x)) - 1)).toBeLessThan(0.12);
  });

  it("loses more, and is less even, the further it comes", () => {
    let last = developing(0, 800);
    for (let x = 0.05; x < 60; x *= 1.1) {
      const here = developing(x, 800);
      expect(here.loss).toBeGreaterThan(last.loss);
      expect(here.kineticFactor).toBeGreaterThanOrEqual(last.kineticFactor);
      last = here;
    }
  });
});

describe("the edge between cup and throat", () => {
  it("contracts as free streamlines do: π/(π + 2) at 90°, 0.745 at 45°, 1/2 out of a pipe that stands into the room", () => {
    expect(contractionCoefficient(radians(90))).toBeCloseTo(Math.PI / (Math.PI + 2), 5);
    expect(contractionCoefficient(radians(45))).toBeCloseTo(0.7467, 4);
    expect(contractionCoefficient(radians(180))).toBeCloseTo(0.5, 6);
    expect(contractionCoefficient(0)).toBe(1);
  });

  it("loses all of it sharp and next to nothing well rounded; nobody's edge has bounds, a measured one has less", () => {
    expect(roundedPart(0)).toBe(1);
    expect(roundedPart(0.2)).toBeLessThan(0.1);
    const edge = { wallAngle: radians(73), diameter: 3.7e-3, radius: null };
    const unknown = throatEdgeLoss(edge, 1);
    // the vena contracta of the demo's bowl: 0.24 to 0.31 by the area ratio that finite elements show
    expect(unknown.upper).toBeGreaterThan(0.24);
    expect(unknown.upper).toBeLessThan(0.31);
    expect(unknown.lower).toBe(0);
    expect(throatEdgeLoss(edge, 0).estimate).toBe(0);
    const measured = throatEdgeLoss({ ...edge, radius: 1e-3 }, 1);
    expect(measured.upper).toBeLessThan(0.1 * unknown.upper);
    expect(measured.estimate).toBe(measured.upper);
  });
});

describe("cup and throat against finite elements (flow/stream/cup.csv)", () => {
  const { air } = readSetup({
    ...exampleFile(),
    air: { density: 1.17, soundSpeed: 347, viscosity: 1.85e-5, heatRatio: 1.4, prandtl: 0.71 },
  });
  const setup = { ...demo(), air };
  const rows = numbers("flow/stream/cup.csv");

  it.each(rows)("edge of %f mm at Re %f: within 1.3 times, the bounds hold", (_, reynolds, loss) => {
    const diameter = 3.7e-3;
    const speed = (reynolds * 1.85e-5) / 1.17 / diameter;
    const flow = (speed * Math.PI * diameter ** 2) / 4;
    const { parts } = resistance(setup, { litresPerMinute: 60_000 * flow });
    const [cup, throat] = parts;
    const over = (drop: number) => drop / (0.5 * 1.17 * speed ** 2);
    const model = over(cup.dropPa + throat.dropPa);
    expect(throat.reynolds[1] / reynolds).toBeCloseTo(1, 6);
    expect(Math.max(model / loss, loss / model)).toBeLessThan(1.3);
    expect(over(cup.boundsPa[1] + throat.dropPa)).toBeGreaterThan(loss);
    expect(over(cup.boundsPa[0] + throat.dropPa)).toBeLessThan(loss);
  });

  it("has both edges at four Reynolds numbers", () => expect(rows).toHaveLength(8));
});
