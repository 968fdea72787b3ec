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
    case "octave":
      return "octaves";
    case "retuned-pitch":
      return "pitch once the slide is set again";
    case "hold":
      return "slot width of each note";
    case "high-hold":
      return "slot width of the high notes";
    case "bend":
      return "how far the pitch follows the lips";
    case "margin":
      return "pressure at which the next note would take over";
    case "pressure-drop":
      return `backpressure: pressure drop at ${litresPerMinute} L/min`;
    case "starting-pressure":
      return "starting pressure of each note";
  }
}
