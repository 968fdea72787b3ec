/**
 * Setup files at random from a seed: ordinary instruments, ones at the edges of what is accepted, and hostile ones, which a
 * slip of the hand or an ill will may write. Lengths in mm.
 */
import { randomLcg } from "d3";
import { REFUSED } from "../../src/setup/dimension/plausibleLimits.ts";

type Points = [number, number][];

/** The setup file of a number; the same number, the same file. */
export function drawnSetup(seed: number) {
  const random = randomLcg((seed * 0.618033988749895) % 1);
  const even = (low: number, high: number) => low + (high - low) * random();
  /** Evenly in the logarithm. */
  const log = (low: number, high: number) => low * (high / low) ** random();
  const whole = (low: number, high: number) => Math.floor(even(low, high + 1));
  const one = <T>(...choices: readonly T[]): T => choices[whole(0, choices.length - 1)];
  const chance = (share: number) => random() < share;

  /** How far from an ordinary instrument: 0 is one, 1 goes to the edges of what is accepted and a little beyond. */
  const wild = one(0, 0, 0, 0.3, 0.3, 0.6, 1);
  const around = (low: number, high: number, { least, most }: { least: number; most: number }) =>
    log(low * ((0.97 * least) / low) ** wild, high * ((1.03 * most) / high) ** wild);

  /** Points of a bore from one diameter to another, as somebody may have measured, drawn or spoilt it. */
  function bore(
    lengthMm: number,
    from: number,
    to: number,
    { least, most }: { least: number; most: number },
  ): Points {
    const along = (t: number) => from * (to / from) ** t;
    const shape =
      wild === 0
        ? one("points", "flare", "two")
        : one("points", "flare", "two", "noise", "stairs", "chambers", "cliff", "many", "close");
    switch (shape) {
      case "two":
        return [
          [0, from],
          [lengthMm, to],
        ];
      case "flare": {
        const n = whole(5, 120);
        return Array.from({ length: n + 1 }, (_, i) => [(lengthMm * i) / n, along(i / n)]);
      }
      case "points": {
        const n = whole(2, 20);
        const at = [
          0,
          ...Array.from({ length: n - 1 }, () => even(0, lengthMm)).sort((a, b) => a - b),
          lengthMm,
        ];
        return at.map((x) => [x, along(x / lengthMm) * Math.exp(even(-0.03, 0.03))]);
      }
      case "noise": {
        const n = whole(50, 1500);
        const spread = log(1e-4, 0.3);
        return Array.from({ length: n + 1 }, (_, i) => [
          (lengthMm * i) / n,
          along(i / n) * Math.exp(spread * even(-1, 1)),
        ]);
      }
      case "stairs": {
        const n = whole(2, one(10, 100, 1500));
        return Array.from({ length: 2 * n }, (_, i) => [
          (lengthMm * Math.ceil(i / 2)) / n,
          along(Math.floor(i / 2) / n) * Math.exp(even(-0.02, 0.02)),
        ]);
      }
      case "chambers": {
        const n = whole(2, 30);
        const ratio = log(1.01, 12);
        return Array.from({ length: 2 * n }, (_, i) => [
          (lengthMm * Math.ceil(i / 2)) / n,
          along(i / (2 * n)) * (Math.floor(i / 2) % 2 ? ratio : 1),
        ]);
      }
      case "cliff": {
        const at = even(0.05, 0.95) * lengthMm;
        const wide = log(least, most);
        const near = log(1e-9, 5);
        return [
          [0, from],
          [at, from],
          [Math.min(at + near, 0.99 * lengthMm), wide],
          [lengthMm, to],
        ];
      }
      case "many": {
        const n = whole(1000, 2600);
        return Array.from({ length: n + 1 }, (_, i) => [(lengthMm * i) / n, along(i / n)]);
      }
      case "close": {
        const n = whole(3, 40);
        const at = [
          0,
          ...Array.from({ length: n }, () =>
            chance(0.5) ? even(0, lengthMm) : lengthMm * log(1e-12, 0.9),
          ).sort((a, b) => a - b),
          lengthMm,
        ];
        return at.map((x) => [x, along(x / lengthMm) * Math.exp(even(-0.2, 0.2))]);
      }
    }
  }

  const throat = around(3, 8, REFUSED.narrowPart);
  const cup = around(15, 33, REFUSED.narrowPart);
  const exit = throat * log(1.05, 2.5);
  const depth = around(18, 40, REFUSED.receiverDepth);
  const taper = chance(0.1) ? 0 : chance(0.2 * wild) ? even(0.1, 0.5) : even(0.02, 0.1);
  const wall = wild > 0.5 ? log(0.2, 60) : even(0.3, 1.5);
  const gap = chance(0.05) ? 0 : chance(0.3 * wild) ? depth * random() : Math.min(depth, even(0, 8));
  const start = chance(0.3 * wild) ? around(7, 14, REFUSED.narrowPart) : exit * even(0.9, 1.3);
  const leadEnd = wild === 0 ? start * even(1.1, 1.6) : around(9, 20, REFUSED.narrowPart);
  const tube = chance(0.5 * wild) ? around(9, 25, REFUSED.diameter) : leadEnd * even(1, 1.2);
  const bell = around(90, 500, REFUSED.diameter);
  const mouthpieceMm = around(50, 110, REFUSED.mouthpieceLength);
  const bodyMm = around(500, 6000, REFUSED.bodyLength);
  const cupMm = mouthpieceMm * even(0.1, 0.4);
  const isBend = chance(0.7);
  const body = bore(bodyMm, tube, bell, REFUSED.diameter);
  const mouthpiece: Points = [
    [0, cup],
    [cupMm, throat],
    ...bore(mouthpieceMm - cupMm - 1, throat, exit, REFUSED.narrowPart).map(([x, d]): [number, number] => [
      x + cupMm + 1,
      d,
    ]),
  ];
  // the last point's noise must not leave the shank without a wall
  const shankMm = mouthpiece[mouthpiece.length - 1][1];
  const air = chance(0.2)
    ? {
        density: even(0.5, 2),
        soundSpeed: even(300, 400),
        viscosity: even(1e-5, 3e-5),
        heatRatio: even(1.2, 1.67),
        prandtl: even(0.5, 1),
      }
    : {
        temperature: even(0, 45),
        ...(chance(0.3) && { breath: { temperature: even(0, 45), reach: log(1, 10_000) } }),
      };
  return {
    format: "annulus-setup",
    version: 1,
    name: `drawn ${seed}`,
    units: "mm",
    air,
    mouthpiece: { profile: mouthpiece, insertion: depth - gap },
    receiver: { mouthDiameter: shankMm + 2 * wall + taper * depth, taper, depth },
    leadpipe: { profile: bore(around(120, 400, REFUSED.leadpipeLength), start, leadEnd, REFUSED.narrowPart) },
    body: { profile: body, ...(isBend && { slideAt: bodyMm * random() }) },
    model: {
      junction: one("modal", "modal", "modal", "plane"),
      radiation: one("unflanged", "unflanged", "flanged", "open"),
      bell: chance(0.1) ? "multimodal" : "plane",
      wallLossFactor: chance(0.5) ? 1 : log(0.5, 5),
    },
  };
}
