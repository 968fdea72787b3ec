/** How much of a pressure drop rests on an edge of the mouthpiece that hardly anyone measures. */
import type { Resistance } from "../../study/blown/resistance.ts";

export function throatEdgeWords({ dropPa, throatEdge }: Resistance): string {
  const { lower, upper } = throatEdge.dropPa;
  if (upper - lower < 0.005 * dropPa.estimate) return "";
  const pascals = (pa: number) => (pa < 10 ? pa.toFixed(1) : pa.toFixed(0));
  const range = `${pascals(lower)} Pa if the edge between cup and throat is well rounded, up to ${pascals(upper)} Pa`;
  return throatEdge.isMeasured
    ? `The cup costs ${range} if the stream leaves the wall there all the same.`
    : `The cup costs ${range} if it is sharp. Nobody has measured that edge here: give its radius in the mouthpiece's numbers to narrow this.`;
}
