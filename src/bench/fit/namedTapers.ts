/**
 * Tapers that shanks are called by. The Morse tapers are those of ISO 296; what an instrument's shanks have as a rule is common
 * practice, no source, and to be checked with a gauge.
 */

export interface NamedTaper {
  readonly name: "usual-trumpet" | "morse-0" | "morse-1";
  /** Change of diameter per length. */
  readonly taper: number;
  /** As it is defined, inches of diameter per foot. */
  readonly inchesPerFoot: number;
}

const named = (name: NamedTaper["name"], ratio: number): NamedTaper => ({
  name,
  taper: 1 / ratio,
  inchesPerFoot: 12 / ratio,
});

export const NAMED_TAPERS: readonly NamedTaper[] = [
  named("usual-trumpet", 20),
  named("morse-1", 20.047),
  named("morse-0", 19.212),
];

/** Closer than this, a taper may be one of those: over 25 mm of seat it is 0.01 mm of diameter. */
const CLOSE = 0.0004;

/** The named taper nearest to one, where one is near. */
export function nearestNamed(taper: number): NamedTaper | undefined {
  const off = (one: NamedTaper) => Math.abs(one.taper - taper);
  const nearest = NAMED_TAPERS.reduce((best, one) => (off(one) < off(best) ? one : best));
  return off(nearest) <= CLOSE ? nearest : undefined;
}
