/** Setups for tests of the model: the demo, the bores that came with outside values, and bores made at random. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import type { Setup } from "../../src/setup/setup.ts";

export const demo = (): Setup =>
  readSetup(JSON.parse(readFileSync(new URL("../../shared/demo.setup.json", import.meta.url), "utf8")));

/** Constants that leave no loss worth naming. */
export const LOSSLESS = { density: 1.2, soundSpeed: 345, viscosity: 1e-5, heatRatio: 1.4, prandtl: 0.71 };

/** Any instrument-like bore: cup, throat, backbore, receiver, leadpipe, cylinder, flare. */
export const anySetup: fc.Arbitrary<Setup> = fc
  .record({
    cup: fc.double({ min: 12, max: 30, noNaN: true }),
    throat: fc.double({ min: 2.5, max: 8, noNaN: true }),
    exitOver: fc.double({ min: 1.05, max: 2.2, noNaN: true }),
    wall: fc.double({ min: 0.3, max: 1.5, noNaN: true }),
    clearance: fc.double({ min: 0, max: 2, noNaN: true }),
    taper: fc.double({ min: 0, max: 0.1, noNaN: true }),
    leadpipeOver: fc.double({ min: 0.8, max: 1.4, noNaN: true }),
    step: fc.double({ min: 0.8, max: 1.3, noNaN: true }),
    bodyOver: fc.double({ min: 1, max: 1.6, noNaN: true }),
    length: fc.double({ min: 400, max: 3000, noNaN: true }),
    bell: fc.double({ min: 1.2, max: 12, noNaN: true }),
    gap: fc.double({ min: 0, max: 12, noNaN: true }),
    temperature: fc.double({ min: 10, max: 35, noNaN: true }),
    breath: fc.boolean(),
    junction: fc.constantFrom("modal", "plane"),
    radiation: fc.constantFrom("unflanged", "flanged"),
  })
  .map((a) => {
    const exit = a.throat * a.exitOver;
    const shankEnd = exit + 2 * a.wall;
    const depth = 26;
    const leadpipe = exit * a.leadpipeOver;
    const bore = leadpipe * 1.2;
    const body = bore * a.bodyOver;
    return readSetup({
      format: "annulus-setup",
      version: 1,
      units: "mm",
      air: { temperature: a.temperature, ...(a.breath ? { breath: { temperature: 36, reach: 300 } } : {}) },
      mouthpiece: {
        profile: [
          [0, a.cup],
          [12, a.throat],
          [18, a.throat],
          [80, exit],
        ],
        insertion: depth - a.gap,
      },
      receiver: { mouthDiameter: shankEnd + a.clearance + a.taper * depth, taper: a.taper, depth },
      leadpipe: {
        profile: [
          [0, leadpipe],
          [60, leadpipe * 1.05],
          [60, leadpipe * 1.05 * a.step],
          [220, bore],
        ],
      },
      body: {
        profile: [
          [0, body],
          [0.6 * a.length, body],
          [0.85 * a.length, body * Math.sqrt(a.bell)],
          [a.length, body * a.bell],
        ],
        slideAt: 0.2 * a.length,
      },
      model: { junction: a.junction, radiation: a.radiation, bell: "plane" },
    });
  });
