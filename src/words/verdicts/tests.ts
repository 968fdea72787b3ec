/** What a test of a rule of thumb is called. */
import type { Test } from "../../study/change/verdicts.ts";

export function testName({ quantity, litresPerMinute }: Test): string {
  switch (quantity) {
    case "peak-height":
      return "peak height";
    case "spacing":
      return "spacing of neighbours";
    case "closed-peak-height":
      return "peak height without a gap";
    case "hold":
      return "hold of each note";
    case "pressure-drop":
      return `flow: pressure drop at ${litresPerMinute} L/min`;
    case "starting-pressure":
      return "lips: pressure at which each note starts";
  }
}
