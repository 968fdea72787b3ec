/**
 * A part of the bore at many real frequencies of one range: its two-port as a Chebyshev series in √f, from a few dozen exact
 * evaluations.
 *
 * Wall losses are functions of √(jω) with their poles near ω = 0: in f that slows the series of even the shortest part to one of
 * sixty or seventy terms, in √f it takes thirty and, of what part of the phase kL there is, the rest. A part alone has
 * less phase than the whole bore, and no radiation or curved fronts, and is asked for less often for it.
 */
import { Interpolant } from "../numerics/chebyshev.ts";
import type { Chain } from "./chain.ts";
import { applyTo, TWO_PORT } from "./twoPort.ts";

/** How far the series must have fallen: a tenth of what the column's own must have, and more than that is seen. */
const RESOLVED = 1e-10;
/** Terms that losses take, and more for each radian of half the range's phase. */
const LOSSES = 34;
const PER_RADIAN = 1.25;

/** What a line asks of its parts. */
export type Part = Pick<Chain, "twoPort" | "propagate">;

/**
 * The part as a series, good between `low` and `high` Hz and at real frequencies only; itself where no series falls as fast.
 * @param soundSpeed m/s, about
 */
export function seriesOf(part: Chain, low: number, high: number, soundSpeed: number): Part {
  // half of what kL gains over the range
  const phase = (Math.PI * (high - low) * part.length) / soundSpeed;
  const nodes = Math.ceil(LOSSES + PER_RADIAN * phase);
  const series = new Interpolant(
    Math.sqrt(low),
    Math.sqrt(high),
    TWO_PORT / 2,
    nodes,
    (root, out) => part.twoPort(2 * Math.PI * root * root, 0, out),
    RESOLVED,
    2 * nodes,
  );
  if (!series.isResolved) return part;
  const port = new Float64Array(TWO_PORT);
  const root = (omega: number) => Math.sqrt(omega / (2 * Math.PI));
  return {
    twoPort(omega, _, out, at = 0) {
      series.evaluate(root(omega), 0, port);
      out.set(port, at);
    },
    propagate(state, omega) {
      series.evaluate(root(omega), 0, port);
      applyTo(state, port);
    },
  };
}
