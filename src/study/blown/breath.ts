/**
 * A player's breath as the air column feels it, however soft the tone: where a steady stream Q loses Δp(Q), a small tone on it
 * meets a resistance dΔp/dQ, and across the gap the shear layer's κ (`gapShear.ts`).
 *
 *   throat     2Δp/Q of what its edge and the widening behind it lose (their losses go as Q²)
 *   gap        2Δp/Q of the direct step from bore to bore, and κ ρU/S at the shank's exit, whose profile has grown along the
 *              backbore from a flat one, as in a straight pipe of its mean bore, or is a turbulent pipe's
 *
 * Friction of the walls under a stream is left as it is in still air: its layers are thinner than the stream's. The widening
 * behind the throat is slow, and a tone's period may be over before the stream has taken note of it: the least is without it.
 * The least and the most at the gap are those of all profiles, from the long pipe's to a nearly flat one.
 */
import type { Breath, SeriesImpedance } from "../../acoustics/duct/breath.ts";
import { suddenLoss } from "../../flow/areaChange.ts";
import { developing } from "../../flow/entrance.ts";
import { reynoldsNumber, turbulentPart } from "../../flow/friction.ts";
import type { Bounded } from "../../flow/gapLoss.ts";
import { FULLEST, fullnessOf, gapShear, LONGEST_PIPE } from "../../flow/gapShear.ts";
import { speedThrough } from "../../flow/pipe.ts";
import type { Setup } from "../../setup/setup.ts";
import { flowPath, gapShape } from "./flowPath.ts";
import { flowOf, resistance } from "./resistance.ts";

/** Core over mean of a turbulent pipe's profile, u ∝ (1 − r/a)^(1/7). */
const TURBULENT_CORE = 60 / 49;
/** Profiles that bounds are looked for over. */
const PROFILES = [LONGEST_PIPE, 3, 4, 6, 9, 12, FULLEST];

/** The stream as it leaves the shank, SI. */
export interface StreamAtShankEnd {
  /** Of the shank's bore there. */
  readonly radius: number;
  readonly density: number;
  /** Mean over the bore. */
  readonly speed: number;
  readonly reynolds: number;
  /** m of its profile, u ∝ 1 − (r/a)^m: grown along the backbore. */
  readonly fullness: number;
}

/** @param litresPerMinute above 0 */
export function streamAtShankEnd(setup: Setup, litresPerMinute: number): StreamAtShankEnd {
  const flow = flowOf(litresPerMinute);
  const { air, pipes } = flowPath(setup);
  const { shankExit: radius } = gapShape(setup, 0);
  const reynolds = reynoldsNumber(flow, radius, air.viscosity / air.density);
  const length = pipes.backbore.reduce((sum, cone) => sum + cone.length, 0);
  const bore = pipes.backbore.reduce(
    (sum, { length: part, radiusIn, radiusOut }) => sum + (part / length) * (radiusIn + radiusOut),
    0,
  );
  const turbulent = turbulentPart(reynolds);
  const laminarCore = length === 0 ? 1 : developing(length / bore, reynolds).coreOverMean;
  const fullness = fullnessOf(laminarCore + turbulent * (TURBULENT_CORE - laminarCore));
  return { radius, density: air.density, speed: speedThrough(flow, radius), reynolds, fullness };
}

/**
 * The stream's part in one setup's air column.
 * @param figure least loss, estimate, most: of every doubt at once
 * @returns null for still air, 0 L/min
 * @throws OutOfRange on a flow that cannot be computed, as `resistance`
 */
export function breathOf(
  setup: Setup,
  litresPerMinute: number,
  figure: keyof Bounded = "estimate",
): Breath | null {
  if (litresPerMinute === 0) return null;
  const { parts, throatEdge } = resistance(setup, { litresPerMinute });
  const flow = flowOf(litresPerMinute);
  const { radius, density, speed: jet, reynolds, fullness } = streamAtShankEnd(setup, litresPerMinute);
  const { leadpipe } = gapShape(setup, 0);
  const widening = parts.find(({ part }) => part === "backbore")!.areaChangePa;
  const lost = throatEdge.dropPa[figure] + (figure === "lower" ? 0 : widening);
  const step = suddenLoss(jet, speedThrough(flow, leadpipe), density);
  const scale = (density * jet) / (Math.PI * radius * radius);
  return {
    throatResistance: (2 * lost) / flow,
    atGap(gap): SeriesImpedance {
      const stream = { gapOverDiameter: gap / (2 * radius), reynolds };
      const profiles = figure === "estimate" ? [fullness] : PROFILES;
      const spectra = profiles.map((profile) => gapShear({ ...stream, fullness: profile }));
      return (omega) => {
        const kappas = spectra.map((kappa) => kappa((omega * gap) / (2 * Math.PI * jet)));
        const [re, im] = kappas.reduce((one, other) =>
          (figure === "lower" ? other[0] < one[0] : other[0] > one[0]) ? other : one,
        );
        return [(2 * step) / flow + scale * re, scale * im];
      };
    },
  };
}
