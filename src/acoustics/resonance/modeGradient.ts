/**
 * What a change of radius anywhere does to a resonance and to its peak, by `boreGradient.ts` with
 *
 *   d ln f_n/da = Re[−(∂U/∂a)/(f_n ∂U/∂f)]  at the zero of U;     d ln|Z|/da = Re[(∂p/∂a)/p − (∂U/∂a)/U]  at the peak,
 *
 * as `sensitivity.ts` has them for one dimension at a time.
 */
import { profileLengthMm } from "../../setup/geometry.ts";
import type { AirColumn } from "../airColumn.ts";
import { BoreGradient } from "../duct/boreGradient.ts";
import type { Place } from "../duct/boreLayout.ts";
import type { Gap } from "../gap/gap.ts";
import type { Resonance } from "./resonances.ts";
import { atRim } from "./sensitivity.ts";

/** Entry i belongs to place i, 1/m. */
export interface ModeGradient {
  /** d ln f_n/da, of the real part */
  readonly frequency: Float64Array;
  /** d ln|Z|/da at the peak; null where the resonance has none */
  readonly height: Float64Array | null;
}

export interface ModeGradients {
  readonly places: readonly Place[];
  readonly modes: readonly ModeGradient[];
}

/**
 * What a change of radius anywhere along the bore does to each resonance's frequency and peak height.
 *
 * @param draw m of tuning slide drawn
 * @param flare whether the places in the flare of a multimodal bell are wanted, which take most of the time
 */
export function modeGradients(
  column: AirColumn,
  gap: Gap,
  resonances: readonly Resonance[],
  draw = 0,
  flare = true,
): ModeGradients {
  const leadpipeLength = profileLengthMm(column.setup.leadpipe.profileMm) / 1000;
  const bore = new BoreGradient(column.line, leadpipeLength, gap, draw, flare);
  const modes = resonances.map((resonance): ModeGradient => {
    const { frequency, decay, peak } = resonance;
    const {
      hertzByFlow: [re, im],
      heightWeights,
    } = atRim({ column, gap, draw }, resonance);
    return {
      frequency: bore.gradient(frequency, decay, [0, 0, re / frequency, im / frequency]),
      height: peak && heightWeights && bore.gradient(peak.frequency, 0, heightWeights),
    };
  });
  return { places: bore.places, modes };
}
