/** The throat's edge: what a stream loses from the rim to the throat's end, by the edge's radius and by Reynolds number. */
import { dynamicPressure } from "../../src/flow/pipe.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { flowPath } from "../../src/study/blown/flowPath.ts";
import { bounded, flowOf, type Resistance, resistance } from "../../src/study/blown/resistance.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import cupStream from "../../tests/reference/flow/stream/cup.csv?raw";
import { demo } from "../paper/demo.ts";
import { part } from "./stream.ts";

/** The demo as if somebody had measured the radius of its throat's edge. */
export const withEdge = (radiusMm: number): Setup => ({
  ...demo,
  mouthpiece: { ...demo.mouthpiece, throatEdgeRadiusMm: radiusMm },
});

/** Most that the radius is tried to, mm. */
export const mostEdgeMm = 1;
const edgesMm = Array.from({ length: 21 }, (_, i) => (i * mostEdgeMm) / 20);

/** The same breath over every edge, sharp to rounded. */
export const overEdges = (
  gapMm: number,
  litresPerMinute: number,
): readonly { readonly radiusMm: number; readonly drop: Resistance }[] =>
  edgesMm.map((radiusMm) => ({ radiusMm, drop: resistance(withEdge(radiusMm), { gapMm, litresPerMinute }) }));

const { air, throatEdge } = flowPath(demo);

/** Flow at which the stream in the throat has this Reynolds number. */
const litresAt = (reynolds: number): number =>
  (reynolds * Math.PI * throatEdge.diameter * air.viscosity) / (4 * air.density * flowOf(1));

/** Rim to the throat's end over ½ρu² of the throat, between the bounds of an edge that nobody measured. */
export function cupAndThroat(reynolds: number) {
  const litresPerMinute = litresAt(reynolds);
  const stream = resistance(demo, { litresPerMinute });
  const dynamic = dynamicPressure(flowOf(litresPerMinute), throatEdge.diameter / 2, air.density);
  const sure = part(stream, "cup").dropPa + part(stream, "throat").dropPa - stream.throatEdge.dropPa.estimate;
  return bounded((figure) => (sure + stream.throatEdge.dropPa[figure]) / dynamic);
}

/** By finite elements, for an edge as drawn and one rounded. */
export const cupByElements: readonly {
  readonly radiusMm: number;
  readonly reynolds: number;
  readonly loss: number;
}[] = numbersOf(cupStream).map(([radiusMm, reynolds, loss]) => ({ radiusMm, reynolds, loss }));
