/**
 * Which note an oscillation is. Lips that strike outwards are driven only where Im 1/Z > 0, which is above the resonance
 * they use, as far as the next one's foot. So note n is what oscillates between a quarter of a spacing below resonance n and
 * a quarter of a spacing below resonance n + 1; the last resonance is nobody's, it only bounds the note beneath it.
 */
import { type Modes, resonanceCount, resonanceHz } from "./modes.ts";

/** Where note n begins, Hz; n from 1 to the number of resonances. */
export function lowestOf(modes: Modes, n: number): number {
  const f = resonanceHz(modes, n);
  return f - (f - (n > 1 ? resonanceHz(modes, n - 1) : 0)) / 4;
}

/** The note an oscillation at `frequencyHz` is; null below the first and from the last resonance on. */
export function noteAt(modes: Modes, frequencyHz: number): number | null {
  const count = resonanceCount(modes);
  let n = 0;
  while (n < count && frequencyHz >= lowestOf(modes, n + 1)) n++;
  return n > 0 && n < count ? n : null;
}
