/**
 * How far a bell of plane waves is to be trusted: each resonance with it and with curved fronts (`model.bell` "multimodal",
 * within a cent of finite elements for the demo's bell), at two gaps. What the first model is off by is much the same at both,
 * so that the gap's own effect, the difference, hardly feels it.
 */
import type { Setup } from "../../setup/setup.ts";
import { withBell } from "../../setup/withBell.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";
import { cents } from "../instrument/pitch.ts";

export interface BellTrust {
  readonly fromGapMm: number;
  readonly toGapMm: number;
  readonly modes: readonly BellTrustMode[];
}

export interface BellTrustMode {
  readonly n: number;
  /** At the first gap. */
  readonly planeHz: number;
  readonly curvedHz: number;
  /** Plane waves above curved fronts, at the first gap. */
  readonly cents: number;
  /** What the second gap does to the resonance, cents. */
  readonly planeChange: number;
  readonly curvedChange: number;
}

const BELLS = ["plane", "multimodal"] as const;
const MODES = 12;

/**
 * Tells how many of the two models are done.
 * @throws SetupError on a gap the receiver cannot have, RangeError where the bell is too wide for curved fronts
 */
export function* bellTrustSteps(
  setup: Setup,
  fromGapMm: number,
  toGapMm: number,
): Generator<number, BellTrust, void> {
  const found: (readonly [from: readonly Mode[], to: readonly Mode[]])[] = [];
  for (const bell of BELLS) {
    yield found.length;
    const instrument = new Instrument(withBell(setup, bell), { modes: MODES });
    found.push([instrument.modes(fromGapMm), instrument.modes(toGapMm)]);
  }
  const [plane, curved] = found;
  const count = Math.min(...found.flatMap((pair) => pair.map(({ length }) => length)));
  const change = ([from, to]: (typeof found)[number], i: number) =>
    cents(to[i].frequencyHz, from[i].frequencyHz);
  return {
    fromGapMm,
    toGapMm,
    modes: Array.from({ length: count }, (_, i) => {
      const [planeHz, curvedHz] = [plane[0][i].frequencyHz, curved[0][i].frequencyHz];
      return {
        n: i + 1,
        planeHz,
        curvedHz,
        cents: cents(planeHz, curvedHz),
        planeChange: change(plane, i),
        curvedChange: change(curved, i),
      };
    }),
  };
}
