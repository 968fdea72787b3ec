import { readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const reference = (name: string) => fileURLToPath(new URL(`../reference/response/${name}`, import.meta.url));
const sweep = reference("sweep.wav");
const recording = reference("recording-40db.wav");

it("tells resonances from a recording and its excitation, as JSON, CSV and a table", () => {
  const json = annulus(["response", recording, "--excitation", sweep, "--format", "json"]);
  expect(json).toMatchObject({ status: 0, stderr: "" });
  const { resonances, delay_s, signal_to_noise_db, warnings } = JSON.parse(json.stdout);
  expect(resonances).toHaveLength(10);
  expect(resonances[1]).toEqual({
    n: 2,
    hz: expect.closeTo(233.9, 1),
    hz_u: expect.any(Number),
    q: expect.closeTo(22.1, 0),
    q_u: expect.any(Number),
  });
  expect([delay_s, signal_to_noise_db, warnings]).toEqual([
    expect.closeTo(0.037, 4),
    expect.closeTo(40, 0),
    [],
  ]);
  const csv = annulus(["response", recording, "--excitation", sweep, "--format", "csv"]);
  expect(csv.stdout.split("\n")[0]).toBe("n,hz,hz_u,q,q_u");
  const table = annulus(["response", recording, "--excitation", sweep]);
  expect(table.stdout).toMatch(/37\.0 ms late, 40 dB over the noise\n.*f\/Hz.*\n.*\n +1 +84\.70/);
});

it("writes a sweep that it reads again, silence before and after", () => {
  const out = join(tmpdir(), `annulus-sweep-${process.pid}.wav`);
  expect(
    annulus(["excitation", out, "--seconds", "1", "--from", "80", "--to", "1600Hz", "--rate", "16000"]),
  ).toMatchObject({
    status: 0,
    stderr: expect.stringMatching(/start quiet, and never with an earphone at an ear/),
  });
  const bytes = readFileSync(out);
  expect(bytes.subarray(0, 4).toString()).toBe("RIFF");
  const samples = new Int16Array(bytes.buffer, bytes.byteOffset + 44, (bytes.length - 44) / 2);
  expect(samples.findIndex((value) => value !== 0) / 16000).toBeCloseTo(0.25, 2);
  expect(samples.length / 16000).toBeCloseTo(2.25, 1);
  // it answers itself: no resonance
  const itself = annulus(["response", out, "--excitation", out, "--format", "json"]);
  expect(JSON.parse(itself.stdout)).toMatchObject({ resonances: [], delay_s: expect.closeTo(0, 3) });
});

it("says what is wrong with what it was given, and of which file", () => {
  expect(annulus(["response", recording])).toMatchObject({
    status: 2,
    stdout: "",
    stderr: expect.stringMatching(/--excitation/),
  });
  expectRefused(annulus(["response", "none.wav", "--excitation", sweep]), /none\.wav: there is no such file/);
  expectRefused(
    annulus(["response", recording, "--excitation", "package.json"]),
    /package\.json: this is no WAV file/,
  );
  expectRefused(annulus(["excitation", "x.wav", "--seconds", "0.1"]), /1 to 60 s/);
  expectRefused(
    annulus(["excitation", "x.wav", "--rate", "much"]),
    /--rate: "much" is no number; give one such as 48000/,
  );
  expectRefused(annulus(["excitation", "x.wav", "--from", "3kilo"]), /no frequency/);
  expectRefused(annulus(["excitation", join("no", "such", "folder.wav")]), /cannot be written/);
});
