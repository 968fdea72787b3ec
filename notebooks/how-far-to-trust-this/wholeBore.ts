import { AirColumn } from "../../src/acoustics/airColumn.ts";
import { Chain } from "../../src/acoustics/duct/chain.ts";
import { Line } from "../../src/acoustics/duct/line.ts";
import { type Resonance, resonancesOf } from "../../src/acoustics/resonance/resonances.ts";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import cone from "../../tests/reference/duct/cone-3000.json" with { type: "json" };
import horns from "../../tests/reference/duct/horns.json" with { type: "json" };
import start from "../../tests/reference/duct/start-horn.json" with { type: "json" };
import startSetup from "../../tests/reference/duct/start-horn.setup.json" with { type: "json" };
import steepCone from "../../tests/reference/duct/steep-cone.csv?raw";
import { type Check, inCents, inDecibels, type Sample } from "./check.ts";
import { ofSeriesResistance } from "./heard.ts";

const part = "whole bore";

interface Peak {
  readonly frequency_Hz: number;
  readonly magnitude_Pa_s_m3: number;
}

interface Case {
  readonly setup: object;
  readonly gap_mm: number;
  readonly frequency_Hz: readonly number[];
  readonly re_Pa_s_m3: readonly number[];
  readonly im_Pa_s_m3: readonly number[];
  readonly peaks: readonly Peak[];
}

const cases: readonly Case[] = [
  ...start.cases.map((one) => ({ ...one, setup: startSetup })),
  ...(horns.cases as readonly Case[]),
];

/** Every frequency of every case: what is computed, what was integrated. */
const atFrequencies = (sample: (of: string, ours: Complex, theirs: Complex) => Sample): Sample[] =>
  cases.flatMap(({ setup, gap_mm, frequency_Hz, re_Pa_s_m3, im_Pa_s_m3 }) => {
    const of = readSetup(setup);
    const line = new Line(of);
    const gap = line.gap(gap_mm / 1000);
    const state = new Float64Array(4);
    return frequency_Hz.map((hz, i) => {
      line.rimState(gap, 0, 2 * Math.PI * hz, 0, state);
      const [pRe, pIm, uRe, uIm] = state;
      const size = uRe * uRe + uIm * uIm;
      const ours: Complex = [(pRe * uRe + pIm * uIm) / size, (pIm * uRe - pRe * uIm) / size];
      return sample(`${hz} Hz, gap ${gap_mm} mm, ${of.name}`, ours, [re_Pa_s_m3[i], im_Pa_s_m3[i]]);
    });
  });

type Complex = readonly [re: number, im: number];

function resonances(line: Line, setup: Setup, gapMm: number, count: number): Resonance[] {
  const spacing = line.soundSpeed / (2 * line.length);
  const column = new AirColumn(setup, spacing / 4, (count + 2) * spacing, line);
  return resonancesOf(column, line.gap(gapMm / 1000), count);
}

const atPeaks = (
  sample: (of: string, ours: NonNullable<Resonance["peak"]>, theirs: Peak) => Sample,
): Sample[] =>
  cases.flatMap(({ setup, gap_mm, peaks }) => {
    const of = readSetup(setup);
    const found = resonances(new Line(of), of, gap_mm, peaks.length);
    return peaks.map((peak, i) =>
      sample(`peak ${i + 1}, gap ${gap_mm} mm, ${of.name}`, found[i].peak!, peak),
    );
  });

const integration = "SciPy: the horn equation integrated (DOP853, rtol 1e-9)";

export const wholeBore: readonly Check[] = [
  {
    name: "|Z| of twelve bores and gaps",
    part,
    source: integration,
    table: "duct/horns.json, duct/start-horn.json",
    unit: "dB",
    samples: () =>
      atFrequencies((of, ours, theirs) => inDecibels(of, Math.hypot(...ours), Math.hypot(...theirs), 1e-4)),
  },
  {
    name: "Phase of Z of the same",
    part,
    source: integration,
    table: "duct/horns.json, duct/start-horn.json",
    unit: "°",
    samples: () =>
      atFrequencies((of, [re, im], [re0, im0]) => ({
        of,
        ours: degrees(Math.atan2(im, re)),
        theirs: degrees(Math.atan2(im0, re0)),
        off: Math.abs(degrees(Math.atan2(im * re0 - re * im0, re * re0 + im * im0))),
        asked: 1e-3,
      })),
  },
  {
    name: "Frequencies of the peaks of the same",
    part,
    source: integration,
    table: "duct/horns.json, duct/start-horn.json",
    unit: "cents",
    samples: () =>
      atPeaks((of, { frequency }, { frequency_Hz }) => inCents(of, frequency, frequency_Hz, 1e-3)),
  },
  {
    name: "Heights of the peaks of the same",
    part,
    source: integration,
    table: "duct/horns.json, duct/start-horn.json",
    unit: "dB",
    samples: () =>
      atPeaks((of, { magnitude }, { magnitude_Pa_s_m3 }) =>
        inDecibels(of, magnitude, magnitude_Pa_s_m3, 1e-4),
      ),
  },
  {
    name: "Two-ports of short, steep and long cones, as a cup that runs into its throat",
    part,
    source: "SciPy: the horn equation integrated (DOP853, rtol 1e-12)",
    table: "duct/steep-cone.csv",
    unit: "1",
    samples: steepCones,
    // so much of the bore's own impedance, as if it stood in the way
    heard: ({ off }) => ofSeriesResistance(off),
  },
  {
    name: "Peaks of a cone of 3000 mm, 4.2 to 46.9 mm",
    part,
    source: "SciPy, horn equation integrated; geometry: Nederveen 2019, Ernoult & Kergomard 2020",
    table: "duct/cone-3000.json",
    unit: "cents",
    samples: () => {
      const setup = coneSetup();
      const line = new Line(setup);
      const column = new AirColumn(setup, 15, 560, line);
      const found = resonancesOf(column, line.gap(0), cone.peaks.length);
      return cone.peaks.map(({ frequency_Hz }, i) =>
        inCents(`peak ${i + 1}`, found[i].peak!.frequency, frequency_Hz, 0.2),
      );
    },
  },
];

/** The air of `duct/steep-cone.py`. */
const coneAir = { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.71 };

/** Of every cone and frequency the part of its two-port that is furthest off, pressures and flows in units of its own. */
function steepCones(): Sample[] {
  return numbersOf(steepCone).map(([lengthMm, entranceMm, exitMm, hz, ...theirs]) => {
    const [length, radiusIn, radiusOut] = [lengthMm / 1e3, entranceMm / 1e3, exitMm / 1e3];
    const port = new Float64Array(8);
    new Chain([{ length, radiusIn, radiusOut, air: coneAir }], 1, "plane").twoPort(2 * Math.PI * hz, 0, port);
    const z = (coneAir.density * coneAir.soundSpeed) / (Math.PI * radiusIn * radiusOut);
    const ours = Array.from(port, (value, i) => value * [1, 1, 1 / z, 1 / z, z, z, 1, 1][i]);
    const off = ours.map((value, i) => Math.abs(value - theirs[i]));
    const worst = off.indexOf(Math.max(...off));
    const of = `${hz} Hz, ${lengthMm} mm from ${2 * entranceMm} to ${2 * exitMm} mm`;
    return { of, ours: ours[worst], theirs: theirs[worst], off: off[worst], asked: 1.5e-7 };
  });
}

/** The cone cut where a mouthpiece and a leadpipe would end, its gap closed. */
function coneSetup(): Setup {
  const diameter = (x: number) => 4.2 + (42.7 * x) / 3000;
  const from = (start: number, end: number) => ({
    profile: [
      [0, diameter(start)],
      [end - start, diameter(end)],
    ],
  });
  return readSetup({
    format: "annulus-setup",
    version: 1,
    units: "mm",
    air: cone.air,
    mouthpiece: { ...from(0, 50), insertion: 20 },
    receiver: { mouthDiameter: 12, taper: 0, depth: 20 },
    leadpipe: from(50, 1000),
    body: from(1000, 3000),
    model: { junction: "plane", radiation: "open" },
  });
}

const degrees = (radians: number): number => (180 * radians) / Math.PI;
