import { firstHarmonicResistance } from "../../src/flow/describingFunction.ts";
import { frictionFactor } from "../../src/flow/friction.ts";
import { gapShear } from "../../src/flow/gapShear.ts";
import { dynamicPressure, pipeLoss, speedThrough } from "../../src/flow/pipe.ts";
import { missedMomentum, momentumBeyond } from "../../src/flow/shearLayer.ts";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { flowOf, resistance } from "../../src/study/blown/resistance.ts";
import { numbersOf, rowsOf } from "../../tests/reference/csv.ts";
import coneFriction from "../../tests/reference/flow/cone-friction.csv?raw";
import contractions from "../../tests/reference/flow/contraction.csv?raw";
import diffusers from "../../tests/reference/flow/diffuser.csv?raw";
import friction from "../../tests/reference/flow/friction.csv?raw";
import jet from "../../tests/reference/flow/jet.csv?raw";
import oscillation from "../../tests/reference/flow/oscillation.csv?raw";
import path from "../../tests/reference/flow/path.csv?raw";
import cupStream from "../../tests/reference/flow/stream/cup.csv?raw";
import oscillatingStream from "../../tests/reference/flow/stream/gap-oscillating.csv?raw";
import steadyStream from "../../tests/reference/flow/stream/gap-steady.csv?raw";
import { demo } from "../paper/demo.ts";
import { addedByGap } from "../resistance/laminarGap.ts";
import { absolute, type Check, complex, factor, relative, type Sample } from "./check.ts";
import { ofSeriesResistance } from "./heard.ts";

const part = "flow";
const gas = { density: 1.2, viscosity: 1.8e-5 };
const flow = 1e-3;

/** Loss of one change of area over a dynamic pressure of `radius`, by the whole way through a pipe. */
function lossOf(radiusIn: number, radiusOut: number, angleDeg: number, radius: number): number {
  const halfTangent = Math.tan((angleDeg * Math.PI) / 360);
  const length = angleDeg === 180 ? 0 : Math.abs(radiusOut - radiusIn) / halfTangent;
  const { areaChange } = pipeLoss([{ length, radiusIn, radiusOut }], gas, flow);
  return areaChange / dynamicPressure(flow, radius, gas.density);
}

/** Very much wider, for an area ratio of 0. */
const room = 1e4;

const named = (name: string): number[][] =>
  rowsOf(jet)
    .filter(([first]) => first === name)
    .map(([, ...rest]) => rest.map(Number));

/** The invented bore of `flow/path.py`. */
const pathSetup = () =>
  readSetup({
    format: "annulus-setup",
    version: 1,
    units: "mm",
    air: { density: 1.17, soundSpeed: 347, viscosity: 1.85e-5, heatRatio: 1.4, prandtl: 0.71 },
    mouthpiece: {
      profile: [
        [0, 16.4],
        [11, 3.7],
        [16, 3.7],
        [79, 8.5],
      ],
      cupDepth: 11,
      insertion: 22,
    },
    receiver: { mouthDiameter: 10.8, taper: 0.05, depth: 24.54 },
    leadpipe: {
      profile: [
        [0, 8.8],
        [240, 11.68],
      ],
    },
    body: {
      profile: [
        [0, 11.68],
        [600, 11.68],
        [1030, 122],
      ],
    },
  });

/** Air of the finite-element tables, kg/m³ and Pa·s, and the bore beside their gap, m. */
const stream = { density: 1.17, viscosity: 1.85e-5 };
const gapBore = 8.4e-3;
const demoInStream: Setup = {
  ...demo,
  air: { ...demo.air, ...stream },
};
/** m³/s */
const flowAt = (reynolds: number, diameter: number): number =>
  (reynolds * stream.viscosity * Math.PI * diameter) / (4 * stream.density);
const litresPerMinuteOf = (flow: number): number => 60_000 * flow;

/** Of all that the demo loses at 20 L/min, what an error in these parts is, %. */
const ofBlowing =
  (...names: readonly string[]) =>
  ({ off }: Sample) => {
    const { parts } = resistance(demo, { litresPerMinute: 20 });
    const share = parts.reduce((sum, one) => sum + (names.includes(one.part) ? one.share : 0), 0);
    return { "%": 100 * off * share };
  };

/** Of the pressure that this part alone takes, %: as if there were no other. */
const heard = ({ ours, theirs, off }: Sample) => ({
  "%": theirs === 0 ? 100 * off : 100 * Math.abs(ours / theirs - 1),
});
/** Of the jet's momentum, %. */
const heardOfJet = ({ off }: Sample) => ({ "%": 100 * off });

export const theFlow: readonly Check[] = [
  {
    name: "Friction factor, smooth and rough, laminar and turbulent",
    part,
    source: "Colebrook's equation, root by SciPy; 64/Re where laminar",
    table: "flow/friction.csv",
    unit: "1",
    heard,
    samples: () =>
      numbersOf(friction).map(([reynolds, roughness, factor]) =>
        relative(`Re ${reynolds}`, frictionFactor(reynolds, roughness), factor, 1e-4),
      ),
  },
  {
    name: "Pressure lost by friction along a cone",
    part,
    source: "SciPy quadrature with Colebrook's roots",
    table: "flow/cone-friction.csv",
    unit: "1",
    heard,
    samples: () =>
      numbersOf(coneFriction).map(([inMm, outMm, lengthMm, litres, drop]) => {
        const cone = { length: lengthMm / 1000, radiusIn: inMm / 2000, radiusOut: outMm / 2000 };
        const ours = pipeLoss([cone], { density: 1.17, viscosity: 1.85e-5 }, litres / 60_000).friction;
        return relative(`${inMm} to ${outMm} mm, ${litres} L/min`, ours, drop, 2e-4);
      }),
  },
  {
    name: "Diffusers, loss coefficient",
    part,
    source: "Idelchik, diagram 5-2, two digits (by the package fluids)",
    table: "flow/diffuser.csv",
    unit: "1",
    heard,
    samples: () =>
      numbersOf(diffusers).map(([angle, ratio, printed]) =>
        absolute(
          `${angle}°, area ratio ${ratio}`,
          lossOf(0.01, 0.01 * (ratio === 0 ? room : 1 / Math.sqrt(ratio)), angle, 0.01),
          printed,
          angle <= 30 ? 0.012 + 0.055 * printed : 0.01 + 0.14 * printed,
        ),
      ),
  },
  {
    name: "Contractions, sudden and gradual, loss coefficient",
    part,
    source: "Idelchik, diagram 4-9; Crane TP 410 for gradual ones",
    table: "flow/contraction.csv",
    unit: "1",
    heard,
    samples: () =>
      numbersOf(contractions)
        .filter(([, ratio]) => ratio !== 1)
        .map(([angle, ratio, printed]) =>
          relative(
            `${angle}°, area ratio ${ratio}`,
            lossOf(ratio === 0 ? 100 : 0.01 / Math.sqrt(ratio), 0.01, angle, 0.01),
            printed,
            angle === 180 ? 0.01 : 0.02,
          ),
        ),
  },
  {
    name: "An invented bore, part by part",
    part,
    source: "a separate program, the handbook's terms added up",
    table: "flow/path.csv",
    unit: "1",
    heard,
    samples: () => {
      const setup = pathSetup();
      return numbersOf(path).flatMap(
        ([litres, cup, throat, backbore, lower, upper, leadpipe, body, bell]) => {
          const { parts, gap } = resistance(setup, { litresPerMinute: litres });
          const at = (name: string) => parts.find((one) => one.part === name)!.dropPa;
          return [
            ...Object.entries({ cup, throat, backbore, leadpipe, body, bell }).map(([name, outside]) =>
              relative(`${name}, ${litres} L/min`, at(name), outside, 1e-3),
            ),
            relative(`gap, least, ${litres} L/min`, gap.dropPa.lower, lower, 1e-9),
            relative(`gap, most, ${litres} L/min`, gap.dropPa.upper, upper, 1e-9),
          ];
        },
      );
    },
  },
  {
    name: "Momentum in the shear layer at the jet's edge",
    part,
    source: "SciPy quadrature",
    table: "flow/jet.csv",
    unit: "1",
    heard: heardOfJet,
    samples: () =>
      named("momentum_beyond").map(([at, momentum]) =>
        absolute(`beyond ${at}`, momentumBeyond(at), momentum, 5e-14),
      ),
  },
  {
    name: "Momentum the leadpipe's mouth misses, its edge rounded",
    part,
    source: "SciPy quadrature",
    table: "flow/jet.csv",
    unit: "1",
    heard: heardOfJet,
    samples: () =>
      named("missed_momentum").map(([at, missed]) =>
        absolute(`edge at ${at}`, missedMomentum(at, 1), missed, Math.abs(at) < 1 ? 0.01 : 2e-3),
      ),
  },
  {
    name: "First harmonic of a quadratic loss over a cycle",
    part,
    source: "mpmath, the cycle integrated",
    table: "flow/oscillation.csv",
    unit: "1",
    heard,
    samples: () =>
      numbersOf(oscillation)
        .filter(([kind]) => kind === 0)
        .map(([, out, back, amplitude, , , , value]) =>
          relative(
            `amplitude ${amplitude} m³/s`,
            firstHarmonicResistance(((out + back) / 2) * amplitude ** 2, amplitude),
            value,
            5e-11,
          ),
        ),
  },
  {
    name: "A steady stream from the cup's rim to the throat's end, edge sharp and rounded",
    part,
    source: "axisymmetric Navier–Stokes equations by finite elements (FreeFem++)",
    table: "flow/stream/cup.csv",
    unit: "1",
    heard: ofBlowing("cup", "throat"),
    samples: () =>
      numbersOf(cupStream).map(([edgeMm, reynolds, loss]) => {
        const diameter = 3.7e-3;
        const flow = flowAt(reynolds, diameter);
        const { parts } = resistance(demoInStream, { litresPerMinute: litresPerMinuteOf(flow) });
        const drop = parts[0].dropPa + parts[1].dropPa;
        const ours = drop / dynamicPressure(flow, diameter / 2, stream.density);
        return factor(`Re ${reynolds}, edge of ${edgeMm} mm`, ours, loss, 1.3);
      }),
  },
  {
    name: "What the gap adds to a laminar stream",
    part,
    source: "axisymmetric Navier–Stokes equations by finite elements (FreeFem++)",
    table: "flow/stream/gap-steady.csv",
    unit: "1",
    heard: ofBlowing("gap"),
    samples: () =>
      numbersOf(steadyStream)
        .filter(([, reynolds, fullness]) => fullness === 2 && reynolds < 1500)
        .map(([gapOverDiameter, reynolds, , loss]) => {
          const { estimate } = addedByGap(gapOverDiameter, reynolds);
          return factor(`Re ${reynolds}, ${gapOverDiameter} of the bore`, estimate, loss, 1.3);
        }),
  },
  {
    name: "κ of the shear layer across the gap, over ρU/S",
    part,
    source: "linearised Navier–Stokes equations by finite elements (FreeFem++)",
    table: "flow/stream/gap-oscillating.csv",
    unit: "1",
    heard: ({ off }) => ofSeriesResistance((off * speedThrough(flowOf(20), gapBore / 2)) / 345),
    samples: () =>
      numbersOf(oscillatingStream).map(([gapOverDiameter, reynolds, fullness, strouhal, re, im]) =>
        complex(
          `St ${strouhal}, ${gapOverDiameter} of the bore, Re ${reynolds}, fullness ${fullness}`,
          gapShear({ gapOverDiameter, reynolds, fullness })(strouhal),
          [re, im],
          2e-4,
        ),
      ),
  },
];
