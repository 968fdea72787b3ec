import { expect } from "vitest";
import type { Response } from "../../src/response/response.ts";
import { cents, type Rig } from "./syntheticRig.ts";

/** Each pole found within `mostCents` and `mostPercent` of Q, none beside them, and the interval no more than three times too narrow. */
export function expectPoles(
  { resonances }: Response,
  { poles }: Pick<Rig, "poles">,
  mostCents: number,
  mostPercent: number,
) {
  expect(resonances).toHaveLength(poles.length);
  poles.forEach(([hz, q], k) => {
    const found = resonances[k];
    expect(Math.abs(cents(found.hz, hz)), `${hz} Hz`).toBeLessThan(mostCents);
    expect(Math.abs(found.q / q - 1), `Q at ${hz} Hz`).toBeLessThan(mostPercent / 100);
    expect(Math.abs(found.hz - hz) / found.hzUncertainty).toBeLessThan(1.5);
  });
}
