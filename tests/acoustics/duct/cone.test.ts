import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Chain } from "../../../src/acoustics/duct/chain.ts";
import { coneTwoPort, Medium, Station } from "../../../src/acoustics/duct/cone.ts";

const nearlyLossless = { density: 1.2, soundSpeed: 345, viscosity: 1e-22, heatRatio: 1.4, prandtl: 0.71 };
const real = { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.71 };

function twoPort(
  air: typeof real,
  r0: number,
  r1: number,
  length: number,
  omegaRe: number,
  omegaIm = 0,
): Float64Array {
  const out = new Float64Array(8);
  new Chain([{ length, radiusIn: r0, radiusOut: r1, air }], 1, "plane").twoPort(omegaRe, omegaIm, out);
  return out;
}

const determinant = ([ar, ai, br, bi, cr, ci, dr, di]: Float64Array): [number, number] => [
  ar * dr - ai * di - br * cr + bi * ci,
  ar * di + ai * dr - br * ci - bi * cr,
];

const radius = fc.double({ min: 1e-3, max: 6e-2, noNaN: true });
const length = fc.double({ min: 1e-4, max: 0.5, noNaN: true });
const omega = fc.double({ min: 60, max: 20000, noNaN: true });

describe("a cone's two-port", () => {
  it("is the lossless cylinder of every textbook", () => {
    const [L, r, w] = [0.7, 0.006, 3000];
    const k = w / nearlyLossless.soundSpeed;
    const zc = (nearlyLossless.density * nearlyLossless.soundSpeed) / (Math.PI * r * r);
    const port = twoPort(nearlyLossless, r, r, L, w);
    expect(port[0]).toBeCloseTo(Math.cos(k * L), 6);
    expect(port[3] / zc).toBeCloseTo(Math.sin(k * L), 6);
    expect(port[5] * zc).toBeCloseTo(Math.sin(k * L), 6);
    expect(port[6]).toBeCloseTo(Math.cos(k * L), 6);
  });

  it("is the lossless cone in closed form, in one step however steep", () => {
    // ψ = r p obeys the plane wave equation (Fletcher & Rossing, The Physics of Musical Instruments, chapter 8, from memory)
    fc.assert(
      fc.property(radius, radius, length, omega, (r0, r1, h, w) => {
        const { density: rho, soundSpeed: c } = nearlyLossless;
        const port = twoPort(nearlyLossless, r0, r1, h, w);
        const m = (r1 - r0) / h;
        const k = w / c;
        const [cos, sin] = [Math.cos(k * h), Math.sin(k * h)];
        // ψ' = m p + r p', p' = −jωρ U/(πr²); written out for p₁ = 1, U₁ = 0 and p₁ = 0, U₁ = 1
        const a = (r1 * cos - (m * sin) / k) / r0;
        const b = (w * rho * sin) / (Math.PI * r0 * r1 * k);
        const d = (r0 * cos + (m * sin) / k) / r1;
        const scale = 1 + Math.abs(a) + Math.abs(d);
        expect(Math.abs(port[0] - a) / scale).toBeLessThan(1e-6);
        expect((Math.abs(port[3] - b) * Math.PI * r0 * r1) / (rho * c)).toBeLessThan(1e-5 * scale);
        expect(Math.abs(port[6] - d) / scale).toBeLessThan(1e-6);
      }),
    );
  });

  it("is reciprocal: det = 1 at real and complex frequencies", () => {
    fc.assert(
      fc.property(
        radius,
        radius,
        length,
        omega,
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (r0, r1, h, w, t) => {
          const port = twoPort(real, r0, r1, h, w, t * w);
          const size = Math.hypot(port[0], port[1]) * Math.hypot(port[6], port[7]);
          const [re, im] = determinant(port);
          expect(Math.hypot(re - 1, im)).toBeLessThan(1e-11 * (1 + size));
        },
      ),
    );
  });

  it("only takes energy: whatever ends it, no more comes back than went in", () => {
    fc.assert(
      fc.property(radius, radius, length, omega, radius, (r0, r1, extra, w, r) => {
        // up to the steepness of a cup's bottom
        const h = extra + Math.abs(r1 - r0) / 5;
        const [ar, ai, br, bi, cr, ci, dr, di] = twoPort(real, r0, r1, h, w);
        const load = (real.density * real.soundSpeed) / (Math.PI * r * r);
        for (const [pr, pi, ur, ui] of [
          [0, load, 1, 0],
          [load, 0, 1, 0],
          [1, 0, 0, 0],
          [0, 0, 1, 0],
        ]) {
          const p = [ar * pr - ai * pi + br * ur - bi * ui, ar * pi + ai * pr + br * ui + bi * ur];
          const u = [cr * pr - ci * pi + dr * ur - di * ui, cr * pi + ci * pr + dr * ui + di * ur];
          const power = p[0] * u[0] + p[1] * u[1];
          const out = pr * ur + pi * ui;
          // rounding of sums whose terms nearly cancel
          const size = (re: number, im: number) => Math.hypot(re, im);
          const scale =
            (size(ar, ai) * size(pr, pi) + size(br, bi) * size(ur, ui)) *
            (size(cr, ci) * size(pr, pi) + size(dr, di) * size(ur, ui));
          expect(power - out).toBeGreaterThan(-1e-9 * (scale + out));
        }
      }),
    );
  });

  it("is the same from both sides: a cone turned round swaps A and D", () => {
    fc.assert(
      fc.property(radius, radius, length, omega, (r0, r1, h, w) => {
        const there = twoPort(real, r0, r1, h, w);
        const back = twoPort(real, r1, r0, h, w);
        const scale = 1 + Math.abs(there[0]) + Math.abs(there[6]);
        expect(Math.abs(there[0] - back[6]) / scale).toBeLessThan(1e-7);
        expect(Math.abs(there[6] - back[0]) / scale).toBeLessThan(1e-7);
      }),
    );
  });

  it("cuts a long lossy cone until it no longer matters", () => {
    const pieces = (n: number) =>
      Array.from({ length: n }, (_, k) => ({
        length: 3 / n,
        radiusIn: 0.0021 + (0.02135 * k) / n,
        radiusOut: 0.0021 + (0.02135 * (k + 1)) / n,
        air: real,
      }));
    const own = new Chain(pieces(1), 1, "plane");
    expect(own.sections).toBeGreaterThan(4);
    const [a, b] = [new Float64Array(8), new Float64Array(8)];
    for (const f of [30, 300, 1500]) {
      own.twoPort(2 * Math.PI * f, 0, a);
      new Chain(pieces(2000), 1, "plane").twoPort(2 * Math.PI * f, 0, b);
      for (let i = 0; i < 8; i++) {
        const pair = i & ~1;
        expect(Math.abs(a[i] - b[i]) / Math.hypot(b[pair], b[pair + 1])).toBeLessThan(1e-6);
      }
    }
  });

  it("undoes a cylinder with one of negative length, as a slide pushed in", () => {
    const medium = new Medium(real, 1);
    medium.setFrequency(2000, 30);
    const station = new Station();
    station.set(0.006, medium);
    const [there, back] = [new Float64Array(8), new Float64Array(8)];
    coneTwoPort(station, station, station, 0.05, there);
    coneTwoPort(station, station, station, -0.05, back);
    expect(there[0]).toBeCloseTo(back[0], 14);
    expect(there[2]).toBeCloseTo(-back[2], 6);
  });
});
