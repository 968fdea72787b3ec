import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { randomLcg, randomNormal } from "d3";
import FFT from "fft.js";
import { beforeAll, expect, it } from "vitest";
import { type StraightTube, straightTubeStates } from "../../src/acoustics/load/straightTube.ts";
import { moistAir } from "../../src/acoustics/medium/air.ts";
import { exponentialSweep } from "../../src/response/sweep.ts";
import { wavBytes } from "../../src/response/wavBytes.ts";
import { readMeasured } from "../../src/study/measured/measuredCsv.ts";
import { onTube, ROOM, TUBES } from "../study/calibration/rig.ts";
import { annulus, expectRefused } from "./run.ts";

const RATE = 16_000;
/** What plays the instrument: a tube that none of the known ones is. */
const ASKED: StraightTube = { end: "open", length: 0.83, radius: 0.006 };
const folder = mkdtempSync(join(tmpdir(), "annulus-impedance-"));
const file = (name: string) => join(folder, name);
const excitation = exponentialSweep({ seconds: 3, fromHz: 60, toHz: 1500, rate: RATE });

/** The excitation through the rig, late by so much, with noise 60 dB below. */
function heard(tube: StraightTube, delay: number, seed: number): Float32Array {
  const size = 2 ** Math.ceil(Math.log2(2 * excitation.length));
  const fft = new FFT(size);
  const spectrum: number[] = fft.createComplexArray();
  const padded = new Array<number>(size).fill(0);
  excitation.forEach((value, i) => {
    padded[i] = value;
  });
  fft.realTransform(spectrum, padded);
  const frequencies = Float64Array.from({ length: size / 2 + 1 }, (_, k) => Math.max(1, (k * RATE) / size));
  const response = onTube(tube, ROOM, frequencies);
  frequencies.forEach((hz, k) => {
    const [re, im] = [response[2 * k], response[2 * k + 1]];
    const [a, b] = [spectrum[2 * k], spectrum[2 * k + 1]];
    const turn = -2 * Math.PI * hz * delay;
    const [x, y] = [a * re - b * im, a * im + b * re];
    spectrum[2 * k] = x * Math.cos(turn) - y * Math.sin(turn);
    spectrum[2 * k + 1] = x * Math.sin(turn) + y * Math.cos(turn);
  });
  fft.completeSpectrum(spectrum);
  const time: number[] = fft.createComplexArray();
  fft.inverseTransform(time, spectrum);
  const normal = randomNormal.source(randomLcg(seed))();
  const samples = Float32Array.from(excitation, (_, i) => time[2 * i]);
  const rms = Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
  return samples.map((value) => value + 1e-3 * rms * normal());
}

/** Two channels of 16 bits. */
function stereo(left: Float32Array, right: Float32Array): Uint8Array {
  const both = new Float32Array(2 * left.length);
  left.forEach((value, i) => {
    both.set([value, right[i]], 2 * i);
  });
  const bytes = wavBytes({ samples: both, rate: RATE });
  const data = new DataView(bytes.buffer, bytes.byteOffset);
  data.setUint16(22, 2, true);
  data.setUint32(28, 4 * RATE, true);
  data.setUint16(32, 4, true);
  return bytes;
}

const late = (samples: Float32Array, by: number): Float32Array => {
  const out = new Float32Array(samples.length);
  out.set(samples.subarray(0, samples.length - by), by);
  return out;
};

const tubesIn = (prefix: string) =>
  TUBES.flatMap(({ end, length, radius }, k) => [
    "--tube",
    `${end}:${1000 * length}:${2000 * radius}mm=${file(`${prefix}${k}.wav`)}`,
  ]);

beforeAll(() => {
  writeFileSync(file("sweep.wav"), wavBytes({ samples: excitation, rate: RATE }));
  // one factor for all, or nothing could be compared
  const all = [ASKED, ...TUBES].map((tube, k) => heard(tube, 0.021, 0.1 + k / 10));
  const loudest = Math.max(
    ...all.map((one) => one.reduce((most, value) => Math.max(most, Math.abs(value)), 0)),
  );
  all.forEach((samples, k) => {
    const scaled = samples.map((value) => (0.5 * value) / loudest);
    const name = k === 0 ? "asked" : `${k - 1}`;
    writeFileSync(file(`mono-${name}.wav`), wavBytes({ samples: scaled, rate: RATE }));
    // each begun at another time
    const by = 100 + 37 * k;
    writeFileSync(
      file(`stereo-${name}.wav`),
      stereo(
        late(scaled, by),
        late(
          excitation.map((x) => x / 2),
          by,
        ),
      ),
    );
  });
});

function expectTruth(csv: string): void {
  const { frequencies, re, im, reading } = readMeasured(csv);
  expect(reading).toMatchObject({ form: "magnitude-phase", scale: "absolute", unit: 1, phase: "radians" });
  const inBand = [...frequencies].map((hz, i) => ({ hz, i })).filter(({ hz }) => hz > 80 && hz < 1300);
  expect(inBand.length).toBeGreaterThan(1000);
  const states = straightTubeStates(ASKED, moistAir(ROOM), frequencies);
  const rows = csv
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split(",").map(Number));
  let [within, worst] = [0, 0];
  for (const { i } of inBand) {
    const [pRe, pIm, uRe, uIm] = states.subarray(4 * i, 4 * i + 4);
    const size = Math.hypot(pRe, pIm) / Math.hypot(uRe, uIm);
    const off = Math.abs(Math.log(Math.hypot(re[i], im[i]) / size));
    worst = Math.max(worst, off);
    if (off * size <= rows[i][3]) within++;
  }
  expect(within / inBand.length).toBeGreaterThan(0.97);
  // 1 dB where a peak falls steeply, at most
  expect(20 * worst * Math.LOG10E).toBeLessThan(1);
}

it("gives the impedance of what was recorded, as measured reads it", () => {
  const args = ["impedance", file("mono-asked.wav"), "--excitation", file("sweep.wav"), ...tubesIn("mono-")];
  const csv = annulus(args);
  expect(csv).toMatchObject({ status: 0, stderr: "" });
  expect(csv.stdout.split("\n")[0]).toBe("frequency_Hz,|Z|_Pa·s/m3,phase_rad,|Z|_u,phase_u");
  expectTruth(csv.stdout);
  const json = JSON.parse(annulus([...args, "--format", "json"]).stdout);
  expect(json.disagreement).toBeLessThan(1);
  expect(json.warnings).toEqual([]);
});

it("takes what was played from a second channel, where every recording began at another time", () => {
  const csv = annulus(["impedance", file("stereo-asked.wav"), ...tubesIn("stereo-")]);
  expect(csv).toMatchObject({ status: 0, stderr: "" });
  expectTruth(csv.stdout);
});

it("says what is wrong, and where", () => {
  const asked = file("mono-asked.wav");
  const sweep = ["--excitation", file("sweep.wav")];
  expectRefused(
    annulus(["impedance", asked, ...sweep, "--tube", "closed:6cm=x.wav"]),
    /is no tube; give one such as/,
  );
  expectRefused(
    annulus(["impedance", asked, ...sweep, ...tubesIn("mono-").slice(0, 4)]),
    /2 known tubes: give 3 at least, of different lengths/,
  );
  expectRefused(
    annulus(["impedance", asked, ...tubesIn("mono-")]),
    /it has one channel, and no --excitation is given/,
  );
  const wrong = tubesIn("mono-");
  wrong[3] = wrong[3].replace("97.1", "99.1");
  const disagrees = annulus(["impedance", asked, ...sweep, ...wrong]);
  expect(disagrees.status).toBe(0);
  expect(disagrees.stderr).toMatch(/warning: The tubes disagree by \d+\.\d times/);
});
