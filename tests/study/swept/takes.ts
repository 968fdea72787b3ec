/** Takes as a job keeps them, of resonances whose true shift is known, with whatever goes wrong in a real room put in. */
import { randomLcg, randomNormal } from "d3";
import type { KeptSweep, Side } from "../../../src/response/keptSweep.ts";
import { airCents } from "../../../src/study/swept/sweptChange.ts";

export const HZ = [229.1, 342.4, 461.3, 580.2, 697.9, 813.5, 921.8, 1026.4, 1103.2];

export interface World {
  /** `ABAB`, in order. */
  readonly order: string;
  /** True shift of each resonance from before to after, cents. */
  readonly shifts?: readonly number[];
  /** Of the air at each take, °C, and as the thermometer says; 20 unless told. */
  readonly trueC?: (take: number) => number;
  readonly readC?: (take: number) => number;
  /** What each resonance does by itself at each take, cents (standard deviation). */
  readonly scatter?: number;
  /** A leak at the seal at these takes: the low resonances move up and lose Q. */
  readonly leaky?: readonly number[];
  readonly seed?: number;
  readonly change?: Partial<KeptSweep>;
}

export const BEFORE_MM = 2.5;
export const AFTER_MM = 5;

export function takesOf({
  order,
  shifts = HZ.map(() => 0),
  trueC = () => 20,
  readC = trueC,
  scatter = 0.05,
  leaky = [],
  seed = 1,
  change,
}: World): KeptSweep[] {
  const normal = randomNormal.source(randomLcg(seed))();
  return [...order].map((letter, take): KeptSweep => {
    const side: Side = letter === "A" ? "before" : "after";
    const air = airCents(20, trueC(take));
    const resonances = HZ.map((hz, k) => {
      const isLeaky = leaky.includes(take);
      // a small leak is a mass of air beside the column: felt as one over the square of the frequency
      const leak = isLeaky ? 9 * (HZ[0] / hz) ** 2 : 0;
      const lost = isLeaky ? 0.2 * (HZ[0] / hz) ** 2 : 0;
      const cents = air + (side === "after" ? shifts[k] : 0) + scatter * normal() + leak;
      return {
        hz: hz * 2 ** (cents / 1200),
        UHz: 2e-5 * hz,
        q: 25 * (1 - lost) * (1 + 0.003 * normal()),
        UQ: 0.1,
      };
    });
    return {
      id: `${take}`,
      at: `2026-03-02T1${take}:00:00.000Z`,
      side,
      gapMm: side === "before" ? BEFORE_MM : AFTER_MM,
      temperatureC: readC(take),
      temperatureUncertaintyK: 0.1,
      resonances,
      clockPpm: 12,
      signalToNoiseDb: 40,
      warnings: [],
      hasSound: false,
      ...change,
    };
  });
}
