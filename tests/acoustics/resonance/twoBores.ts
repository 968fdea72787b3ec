/** Gradients along the bore held against two instruments that differ by what the gradient is of. */
import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import type { BorePart } from "../../../src/acoustics/duct/boreLayout.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import { type ModeGradients, modeGradients } from "../../../src/acoustics/resonance/modeGradient.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { type StateDerivative, sensitivity } from "../../../src/acoustics/resonance/sensitivity.ts";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";

/** The hat of one profile point over the places of its part: what moving that point does to the polyline. */
function hat({ places }: ModeGradients, setup: Setup, part: BorePart, point: number): number[] {
  const { profileMm } = setup[part];
  const at = (i: number): number => (profileMm[i] ? (profileMm[i][0] - profileMm[0][0]) / 1000 : Number.NaN);
  const [before, here, next] = [at(point - 1), at(point), at(point + 1)];
  return places.map(({ part: its, x }) => {
    if (its !== part) return 0;
    if (Math.abs(x - here) < 1e-9) return 1;
    if (x < here && x >= before) return (x - before) / (here - before);
    return x > here && x <= next ? (next - x) / (next - here) : 0;
  });
}

/**
 * The rim's state by a dimension, per mm, from two bores that differ by it, section by section: a column's series would have
 * its own error divided by the small step.
 */
export function byTwoBores(setup: Setup, path: string, gapMm: number, draw: number): StateDerivative {
  const by = 2e-3;
  const [less, more] = [-by, by].map((step) => new Line(dimensionAt(setup, path)!.moved(step)));
  const before = new Float64Array(4);
  return (fRe, fIm, out) => {
    const state = (line: Line, into: Float64Array) =>
      line.rimState(line.gap(gapMm / 1000), draw, 2 * Math.PI * fRe, 2 * Math.PI * fIm, into);
    state(less, before);
    state(more, out);
    for (let i = 0; i < out.length; i++) out[i] = (out[i] - before[i]) / (2 * by);
  };
}

const standIn = (name: string): Setup =>
  readSetup(
    JSON.parse(readFileSync(new URL(`../../../shared/standins/${name}.setup.json`, import.meta.url), "utf8")),
  );

/** A point of a profile, the gap and the slide, mm and m. */
export type PointOfBore = readonly [part: BorePart, point: number, gapMm: number, draw: number];

/** The gradients at one point, summed with its hat, are what two bores differ by that have it a little wider and narrower. */
export function expectPointAsTwoBores(
  [part, point, gapMm, draw]: PointOfBore,
  column: AirColumn,
  within = 2e-4,
): void {
  const { setup } = column;
  const gap = column.line.gap(gapMm / 1000);
  const resonances = resonancesOf(column, gap, 12, draw);
  const derivative = byTwoBores(setup, `${part}.profile[${point}][1]`, gapMm, draw);
  const gradients = modeGradients(column, gap, resonances, draw);
  const weights = hat(gradients, setup, part, point);
  const pairs = resonances.map((resonance, i) => {
    const expected = sensitivity({ column, gap, draw }, resonance, derivative);
    // a mm of diameter is half a mm of radius
    const sum = (density: Float64Array) =>
      density.reduce((total, value, k) => total + value * weights[k], 0) / 2000;
    const { frequency, height } = gradients.modes[i];
    return { expected, frequency: sum(frequency), height: sum(height!) };
  });
  for (const key of ["frequency", "height"] as const) {
    const largest = Math.max(...pairs.map(({ expected }) => Math.abs(expected[key]!)));
    expect(largest).toBeGreaterThan(0);
    expect(pairs).toHaveLength(12);
    for (const pair of pairs)
      expect(Math.abs(pair[key] - pair.expected[key]!) / largest).toBeLessThan(within);
  }
}

/** The gradients of a stand-in, whose bell has curved fronts, summed over the body are what widening all of it does. */
export function expectBodyAsTwoBores(name: string): void {
  const setup = standIn(name);
  expect(setup.model.bell).toBe("multimodal");
  const column = new AirColumn(setup, 20, 1100);
  const gapMm = setup.receiver.depthMm - setup.mouthpiece.insertionMm;
  const here = { column, gap: column.line.gap(gapMm / 1000), draw: 0 };
  const resonances = resonancesOf(column, here.gap, 8);
  const derivative = byTwoBores(setup, "body.diameters", gapMm, 0);
  const { places, modes } = modeGradients(column, here.gap, resonances);
  expect(resonances).toHaveLength(8);
  resonances.forEach((resonance, n) => {
    const expected = sensitivity(here, resonance, derivative);
    const sums = (density: Float64Array) => {
      const own = density.filter((_, i) => places[i].part === "body");
      const add = (of: (value: number) => number) => own.reduce((sum, value) => sum + of(value), 0) / 2000;
      return { sum: add((value) => value), gross: add(Math.abs) };
    };
    const frequency = sums(modes[n].frequency);
    expect(Math.abs(frequency.sum - expected.frequency)).toBeLessThan(2e-3 * frequency.gross);
    // the highest of a long instrument have no peak
    expect(modes[n].height === null).toBe(expected.height === null);
    if (expected.height === null) return;
    const height = sums(modes[n].height!);
    expect(Math.abs(height.sum - expected.height)).toBeLessThan(2e-3 * height.gross);
  });
}
