/**
 * A part of the bore at many real frequencies of one range: its two-port as a Chebyshev series in √f, from a few dozen exact
 * evaluations.
 *
 * Wall losses are functions of √(jω) with their poles near ω = 0: in f that slows the series of even the shortest part to one of
 * sixty or seventy terms, in √f it takes thirty and, of what part of the phase kL there is, the rest. A part alone has
 * less phase than the whole bore, and neither radiation nor curved fronts, and instruments that have it in common share it.
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

/** The series each chain was last asked for. */
const last = new WeakMap<Chain, { readonly low: number; readonly high: number; readonly part: Part }>();

/**
 * The part as a series, good between `low` and `high` Hz and at real frequencies only; itself where no series falls as fast.
 * @param soundSpeed m/s, about
 */
export function seriesOf(chain: Chain, low: number, high: number, soundSpeed: number): Part {
  const known = last.get(chain);
  if (known?.low === low && known.high === high) return known.part;
  // half of what kL gains over the range
  const phase = (Math.PI * (high - low) * chain.length) / soundSpeed;
  const part = made(chain, low, high, Math.ceil(LOSSES + PER_RADIAN * phase));
  last.set(chain, { low, high, part });
  return part;
}

function made(chain: Chain, low: number, high: number, nodes: number): Part {
  const series = new Interpolant(
    Math.sqrt(low),
    Math.sqrt(high),
    TWO_PORT / 2,
    nodes,
    (root, out) => chain.twoPort(2 * Math.PI * root * root, 0, out),
    RESOLVED,
    2 * nodes,
  );
  if (!series.isResolved) return chain;
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
