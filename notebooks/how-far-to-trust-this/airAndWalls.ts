import { moistAir } from "../../src/acoustics/medium/air.ts";
import { wallLoss } from "../../src/acoustics/medium/wallLoss.ts";
import { zeroOfJ1 } from "../../src/acoustics/numerics/bessel.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import climates from "../../tests/reference/medium/moist-air.csv?raw";
import complexWalls from "../../tests/reference/medium/wall-loss.csv?raw";
import realWalls from "../../tests/reference/medium/wall-loss-real.csv?raw";
import zeros from "../../tests/reference/numerics/bessel-zeros.csv?raw";
import { excessAt } from "../how-the-gap-is-modelled/limits.ts";
import { absolute, type Check, complex, relative } from "./check.ts";
import { centsOf, decibelsOf, ofInertance } from "./heard.ts";

const part = "air and walls";

function lossAt(re: number, im = 0): [number, number] {
  const out = new Float64Array(2);
  wallLoss(re * re - im * im, 2 * re * im, out);
  return [out[0], out[1]];
}

const wallSamples = (rows: readonly (readonly [number, number, number, number])[]) =>
  rows.map(([rvRe, rvIm, re, im]) =>
    complex(`r_v ${rvRe.toPrecision(4)}`, lossAt(rvRe, rvIm), [re, im], 1e-10, Math.hypot(re, im)),
  );

/** In a wide bore what is lost is about one r_v-th of the function. */
const ofLoss = (off: number, rv: number) => ({ dB: decibelsOf(off * Math.max(1, rv)) });

export const airAndWalls: readonly Check[] = [
  {
    name: "Moist air: density, sound speed, ratio of specific heats, viscosity, diffusivity",
    part,
    source: "IEC 61094-2:2009, table F.1 (densities: CIPM-2007)",
    table: "medium/moist-air.csv",
    unit: "1",
    samples: () =>
      numbersOf(climates).flatMap(([temperatureC, humidity, co2, pressurePa, ...printed]) => {
        const air = moistAir({ temperatureC, humidity, co2, pressurePa });
        const ours = [air.density, air.soundSpeed, air.heatRatio, air.viscosity, air.thermalDiffusivity];
        const names = ["density", "sound speed", "ratio of specific heats", "viscosity", "diffusivity"];
        return names.map((name, i) => relative(`${name}, ${temperatureC} °C`, ours[i], printed[i], 2e-7));
      }),
    // five of each climate; heat is lost by the ratio less one, which is off by three and a half times as much
    heard: ({ off }, i) =>
      i % 5 === 1 ? { cents: centsOf(off) } : { dB: decibelsOf(i % 5 === 2 ? 3.5 * off : off) },
  },
  {
    name: "Zeros of J₁, the radial modes of a duct",
    part,
    source: "Abramowitz & Stegun, table 9.5; SciPy jn_zeros",
    table: "numerics/bessel-zeros.csv",
    unit: "1",
    samples: () => numbersOf(zeros).map(([k, zero]) => absolute(`zero ${k}`, zeroOfJ1(k), zero, 5e-12)),
    // by as large a share of the fields at the gap's steps
    heard: ({ off, theirs }) => ofInertance((off / theirs) * excessAt(2.54)),
  },
  {
    name: "Wall losses at real frequencies",
    part,
    source: "mpmath, 30 digits",
    table: "medium/wall-loss-real.csv",
    unit: "1",
    samples: () => wallSamples(numbersOf(realWalls).map(([rv, re, im]) => [rv, 0, re, im] as const)),
    heard: ({ off }, i) => ofLoss(off, numbersOf(realWalls)[i][0]),
  },
  {
    name: "Wall losses at complex frequencies, as a dying resonance has",
    part,
    source: "mpmath, 40 digits",
    table: "medium/wall-loss.csv",
    unit: "1",
    samples: () =>
      wallSamples(numbersOf(complexWalls).map(([rvRe, rvIm, re, im]) => [rvRe, rvIm, re, im] as const)),
    heard: ({ off }, i) =>
      ofLoss(off, Math.hypot(numbersOf(complexWalls)[i][0], numbersOf(complexWalls)[i][1])),
  },
];
