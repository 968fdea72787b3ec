/** What the gap adds to a laminar stream, over ½ρU²: the estimate beside finite elements, which know no estimate. */

import { gapLoss } from "../../src/flow/gapLoss.ts";
import { dynamicPressure } from "../../src/flow/pipe.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import steadyStream from "../../tests/reference/flow/stream/gap-steady.csv?raw";

/** Two equal bores and a cavity as the tables have them; a loss over ½ρU² depends on Re and shape alone. */
const bore = 8.4e-3;
const cavity = (1.15 * bore) / 2;
const gas = { density: 1.17, viscosity: 1.85e-5 };

export function addedByGap(gapOverDiameter: number, reynolds: number) {
  const flow = (reynolds * gas.viscosity * Math.PI * bore) / (4 * gas.density);
  const { lower, estimate, upper } = gapLoss(
    {
      shankExit: bore / 2,
      cavityAtShank: cavity,
      cavityAtLeadpipe: cavity,
      leadpipe: bore / 2,
      gap: gapOverDiameter * bore,
    },
    gas,
    flow,
  );
  const dynamic = dynamicPressure(flow, bore / 2, gas.density);
  return { lower: lower / dynamic, estimate: estimate / dynamic, upper: upper / dynamic };
}

export const addedByElements: readonly {
  readonly gapOverDiameter: number;
  readonly reynolds: number;
  /** 2: a long pipe's profile; more is fuller. */
  readonly fullness: number;
  readonly loss: number;
}[] = numbersOf(steadyStream).map(([gapOverDiameter, reynolds, fullness, loss]) => ({
  gapOverDiameter,
  reynolds,
  fullness,
  loss,
}));
