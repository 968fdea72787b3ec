/** Columns and lips for tests: those that came with outside values, and any at random. */
import fc from "fast-check";
import { DEFAULT_LIPS, LIP_PARAMETERS, type OneMassLips } from "../../src/lips/lips.ts";
import type { Modes } from "../../src/lips/modes.ts";
import type { OneMassValve } from "../../src/lips/oneMass.ts";
import { json } from "../reference/table.ts";

const reference = json("lips/stability.json");

export const COLUMN: Modes = {
  poles: Float64Array.from(reference.poles),
  residues: Float64Array.from(reference.residues),
};

export const valveNamed = (name: string): OneMassValve => ({
  ...reference.lips[name],
  density: reference.density,
});

export const USUAL: OneMassValve = { ...DEFAULT_LIPS, density: reference.density };

const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });

/** Anything the lips' parameters may be, not only what is likely. */
export const anyValve: fc.Arbitrary<OneMassValve> = fc
  .record(
    Object.fromEntries(
      Object.entries(LIP_PARAMETERS).map(([name, { range }]) => [name, between(range[0] / 5, range[1] * 5)]),
    ) as { [Name in keyof OneMassLips]: fc.Arbitrary<number> },
  )
  .map((lips) => ({
    ...lips,
    massExponent: Math.min(lips.massExponent, 2),
    quality: Math.max(lips.quality - 5, 0.5),
    density: reference.density,
  }));

/** A few modes, none of them much like an instrument's. */
export const anyModes: fc.Arbitrary<Modes> = fc
  .array(
    fc.record({
      up: between(20, 300),
      quality: between(3, 100),
      size: between(1e8, 1e10),
      turn: between(-1, 1),
    }),
    {
      minLength: 2,
      maxLength: 8,
    },
  )
  .map((modes) => {
    let frequency = 40;
    const poles: number[] = [];
    const residues: number[] = [];
    for (const { up, quality, size, turn } of modes) {
      frequency += up;
      // Re Z ≥ 0 of every mode for itself
      const angle = Math.atan(turn / (2 * quality));
      const omega = 2 * Math.PI * frequency;
      poles.push(-omega / (2 * quality), omega);
      residues.push(size * Math.cos(angle), size * Math.sin(angle));
    }
    return { poles: Float64Array.from(poles), residues: Float64Array.from(residues) };
  });
