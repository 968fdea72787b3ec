/** From standard uncertainties to an interval (JCGM 100:2008, annex G). */
import { tQuantile } from "../../statistics/distributions.ts";

/** The factor k by which ±k·u holds the value with this probability: Student's t (JCGM 100:2008, G.3.2). */
export function coverageFactor(degreesOfFreedom: number, confidence = 0.95): number {
  // Beyond a million, t is the normal distribution to six figures.
  return tQuantile((1 + confidence) / 2, Math.min(degreesOfFreedom, 1e6));
}
