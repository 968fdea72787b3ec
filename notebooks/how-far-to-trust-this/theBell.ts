import demoFile from "../../shared/demo.setup.json" with { type: "json" };
import { flareReflection } from "../../src/acoustics/bell/bellFlare.ts";
import { radiationMatrix } from "../../src/acoustics/bell/multimodalRadiation.ts";
import { openPipeReflection } from "../../src/acoustics/bell/openPipe.ts";
import { reflection } from "../../src/acoustics/bell/radiation.ts";
import { boreOf } from "../../src/acoustics/duct/bore.ts";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import flareTable from "../../tests/reference/bell/flare.csv?raw";
import levineSchwinger from "../../tests/reference/bell/levine-schwinger.csv?raw";
import radiationTable from "../../tests/reference/bell/radiation.csv?raw";
import { numbersOf } from "../../tests/reference/csv.ts";
import { absolute, type Check, complex, type Sample } from "./check.ts";
import { type Heard, ofReflection, ofReflectionAt } from "./heard.ts";

const part = "bell";

/** Rows of ka, |R| and end correction over radius of the plane wave at an open pipe's end. */
const openEnd = numbersOf(levineSchwinger).filter(([ka]) => ka > 0);

/** End correction over radius of R = −|R| e^{−2jkL}, the turn nearest to a given one. */
function correctionOf([re, im]: readonly [number, number], ka: number, near: number): number {
  const once = Math.atan2(-im, -re) / (-2 * ka);
  return once + (Math.round(((near - once) * ka) / Math.PI) * Math.PI) / ka;
}

const exact = "Levine & Schwinger 1948, their integrals by mpmath";

/** R at the start of the demo's flare, without losses, as the finite elements have it. */
function flareSamples(
  radiation: "unflanged" | "flanged",
  column: number,
  asked: (hz: number) => number,
): Sample[] {
  const startMm = 717.56;
  const air = { density: 1.2, soundSpeed: 345, viscosity: 1e-12, heatRatio: 1.4, prandtl: 0.71 };
  const demo = readSetup(demoFile);
  const { lower } = boreOf({ ...demo, air: { kind: "constants", ...air } });
  let x = demo.body.slideAtMm!;
  const first = lower.findIndex(({ length }) => {
    const isHere = Math.abs(x - startMm) < 1e-6;
    x += 1000 * length;
    return isHere;
  });
  const pieces = lower.slice(first);
  const out = new Float64Array(2);
  return numbersOf(flareTable).map((row) => {
    const [hz, re, im] = [row[0], row[column], row[column + 1]];
    flareReflection(pieces, { radiation, wallLossFactor: 1 }, hz, 5, out);
    return complex(`${hz.toFixed(0)} Hz`, [out[0], out[1]], [re, im], asked(hz));
  });
}

const atOpenEnd = ({ off }: Sample, i: number): Heard => ofReflectionAt(off, openEnd[i][0]);
/** The phase of the reflection is twice ka times the correction in radii. */
const ofCorrection = ({ off }: Sample, i: number): Heard => {
  const { cents = 0 } = ofReflectionAt(2 * openEnd[i][0] * off, openEnd[i][0]);
  return { cents };
};
const ofSize = (sample: Sample, i: number): Heard => ({ dB: atOpenEnd(sample, i).dB ?? 0 });
const inFlare = ({ off }: Sample, i: number): Heard => ofReflection(off, numbersOf(flareTable)[i][0]);

export const theBell: readonly Check[] = [
  {
    name: "Open end: |R| of the closed form the line uses",
    part,
    source: `${exact} (the form: Silva et al. 2009)`,
    table: "bell/levine-schwinger.csv",
    unit: "1",
    heard: ofSize,
    samples: () =>
      openEnd.map(([ka, size]) =>
        absolute(`ka ${ka}`, Math.hypot(...reflection("unflanged", ka, 0)), size, 0.003),
      ),
  },
  {
    name: "Open end: end correction of the same, in radii",
    part,
    source: exact,
    table: "bell/levine-schwinger.csv",
    unit: "1",
    heard: ofCorrection,
    samples: () =>
      openEnd.map(([ka, , length]) =>
        absolute(`ka ${ka}`, correctionOf(reflection("unflanged", ka, 0), ka, length), length, 0.0105),
      ),
  },
  {
    name: "Open end of the multimodal bell: |R| by the Wiener–Hopf method",
    part,
    source: exact,
    table: "bell/levine-schwinger.csv",
    unit: "1",
    heard: ofSize,
    samples: () =>
      openEnd.map(([ka, size]) => absolute(`ka ${ka}`, Math.hypot(...openPipeReflection(ka)), size, 5e-7)),
  },
  {
    name: "Radiation of several modes from a flanged mouth",
    part,
    source: "SciPy: the piston in closed form, the rest by Kramers and Kronig",
    table: "bell/radiation.csv",
    unit: "1",
    heard: ({ off }, i) => ofReflectionAt(off, numbersOf(radiationTable)[i][0]),
    samples: () => {
      // ρc/S = 1
      const air = { density: 1, soundSpeed: Math.PI, viscosity: 1e-5, heatRatio: 1.4, prandtl: 0.71 };
      return numbersOf(radiationTable).map(([ka, m, n, re, im]) => {
        const z = radiationMatrix("flanged", 4, ka, 1, air);
        const at = 2 * (4 * m + n);
        return complex(`ka ${ka}, modes ${m} and ${n}`, [z[at], z[at + 1]], [re, im], 5e-5);
      });
    },
  },
  {
    name: "The demo's bell with a flange, multimodal",
    part,
    source: "finite elements (FreeFEM, SciPy), themselves good to 0.004",
    table: "bell/flare.csv",
    unit: "1",
    heard: inFlare,
    samples: () => flareSamples("flanged", 3, () => 0.006),
  },
  {
    name: "The demo's bell in free space, multimodal",
    part,
    source: "finite elements (FreeFEM, SciPy), themselves good to 0.004",
    table: "bell/flare.csv",
    unit: "1",
    heard: inFlare,
    samples: () => flareSamples("unflanged", 1, (hz) => (hz < 900 ? 0.014 : 0.05)),
  },
];
