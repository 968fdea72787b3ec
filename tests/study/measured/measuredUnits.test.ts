import { expect, it } from "vitest";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";

const rows = Array.from({ length: 30 }, (_, i) => `${100 + i},${20 + i},0.1`).join("\n");

it.each([
  // published curves of brass instruments stand at some 20 to 100 of these
  ["|Z| (MOhm)", 1e6],
  ["|Z| / MΩ", 1e6],
  ["magnitude kOhm", 1e3],
  ["|Z| (MPa·s/m³)", 1e6],
  ["|Z| (kPa.s/m^3)", 1e3],
  // the CGS one has no prefix
  ["|Z| (ohm)", 1e5],
  ["|Z| (acoustic ohms)", 1e5],
  ["|Z| (Ω)", 1e5],
  ["|Z| (Pa·s/m³)", 1],
])("an impedance in %s is read as written", (name, unit) => {
  const { reading, re } = readMeasured(`frequency,${name},phase (rad)\n${rows}\n`);
  expect(reading).toMatchObject({ scale: "absolute", unit, form: "magnitude-phase" });
  expect(re[0]).toBeCloseTo(20 * unit * Math.cos(0.1), -1);
});
