/**
 * What a steady stream loses from the shank's exit (radius a₁, speed u₁), across the gap, into the leadpipe's mouth (a₃, u₃).
 *
 *   lower      the leadpipe catches all of the jet; only the step from a₁ to a₃ remains
 *   upper      the jet fills the cavity (Borda–Carnot) and enters the leadpipe over a sharp edge; on the way it rubs as on a wall
 *   estimate   lower + F (1+c)/2 + w d (1 − e^{−m/d}),   w the turbulent part of a pipe's friction at the shank's Re
 *
 * Laminar: a pipe delivers the stream with uniform shear γ = 4u₁/a₁ at its wall. Freed of the wall it hands momentum on to the
 * air beside it; in similarity, ψ ∝ x^⅔ f(y(γ/νx)^⅓), f‴ + ⅔ff″ − ⅓f′² = 0, f″ → 1 within and f′ → 0 without, the stress on
 * the dividing streamline is c = f″ = 0.612 of the wall's at every distance (flow/shear.py solves it; after Rott & Hakkinen 1962,
 * from memory). With F = 8πμu₁g/S₃ · a₁/a the friction of a wall as long as the gap, a = min(a₁, a₃), the layer takes cF; what
 * it took, the wall behind the gap has to give back to the stream near it, which costs more, up to a wall's own F. The
 * estimate is midway; finite elements (flow/stream/gap.py) find 0.90 to 0.70 of F from Re 320 to 3200.
 *
 * Turbulent: d is what is between the bounds without friction, m = 2ρu₁² min(a₁,a₃) μ/a₃² the momentum balance of the
 * leadpipe's mouth. The jet leaves at the cavity's pressure p_c and mixes in the leadpipe to p₃ = p_c + M/S₃ − ρu₃², where M is the
 * momentum of the jet that comes through the mouth: with all of it this is Borda–Carnot, and the lack ΔM = ρu₁² · 2π min(a₁,a₃) μ
 * raises the loss by ΔM/S₃. μ comes from the spread of the jet's shear layer (`shearLayer.ts`): what passes outside the
 * leadpipe's edge, or has been handed to air that turns back in the cavity. That balance is of a free jet; the cavity's walls
 * bear what it misses once it is wide, so the loss saturates at the upper figure.
 *
 * A leadpipe narrower than the shank's exit faces the stream with its edge: the lower figure then is a sharp contraction. A
 * wider one lets the jet pass inside. With the gap all three go over to the direct step: the stream turns outward over no less
 * than the gap's own length, so the cavity filled by a short gap is r + (R − r)(1 − e^{−g/(R−r)}), r the wider bore.
 *
 * What it cannot know: the profile that the backbore delivers (one fuller than a long pipe's loses more), swirl, burrs and
 * rounded edges, and that the stream is not steady when a note sounds.
 */
import { suddenLoss } from "./areaChange.ts";
import { reynoldsNumber, turbulentPart } from "./friction.ts";
import { type Gas, speedThrough } from "./pipe.ts";
import { layerScale, missedMomentum } from "./shearLayer.ts";

/** Radii and gap in m. */
export interface GapShape {
  readonly shankExit: number;
  readonly cavityAtShank: number;
  readonly cavityAtLeadpipe: number;
  readonly leadpipe: number;
  readonly gap: number;
}

/** A quantity between its bounds. */
export interface Bounded {
  readonly lower: number;
  readonly estimate: number;
  readonly upper: number;
}

/** c: stress on the dividing streamline of a uniform shear freed of its wall, over the wall's. */
const DIVIDING_STRESS = 0.612;

/** Loss of a steady stream, Pa. @param flow m³/s, from 0 */
export function gapLoss(shape: GapShape, gas: Gas, flow: number): Bounded {
  const { shankExit, leadpipe, gap } = shape;
  if (gap === 0 || flow === 0) return jetLoss(shape, gas, flow, 1);
  const { density, viscosity } = gas;
  const jet = speedThrough(flow, shankExit);
  const turbulent = turbulentPart(reynoldsNumber(flow, shankExit, viscosity / density));
  const friction =
    (8 * viscosity * jet * gap * shankExit) / (leadpipe * leadpipe * Math.min(shankExit, leadpipe));
  const { lower, estimate, upper } = jetLoss(shape, gas, flow, 1);
  return {
    lower,
    estimate: lower + (friction * (1 + DIVIDING_STRESS)) / 2 + turbulent * (estimate - lower),
    upper: upper + friction,
  };
}

/**
 * Loss, Pa, of a flat jet by its momentum alone: of air that swings, whose friction the sound's own losses have.
 * @param turbulent w of its layer
 */
export function jetLoss(
  shape: GapShape,
  { density, viscosity }: Gas,
  flow: number,
  turbulent: number,
): Bounded {
  const { shankExit, leadpipe, gap } = shape;
  const jet = speedThrough(flow, shankExit);
  const onward = speedThrough(flow, leadpipe);
  const filled = speedThrough(flow, filledRadius(shape));
  const lower = suddenLoss(jet, onward, density);
  const upper = suddenLoss(jet, filled, density) + suddenLoss(filled, onward, density);
  const doubt = upper - lower;
  // equal but for rounding: no gap, or no cavity wider than the bores
  if (!(doubt > 1e-14 * upper)) return { lower, estimate: lower, upper: lower };
  const width = missedMomentum(leadpipe - shankExit, layerScale(gap, jet, viscosity / density, turbulent));
  const missed = 2 * density * jet * jet * Math.min(shankExit, leadpipe) * width * leadpipe ** -2;
  return { lower, estimate: lower - doubt * Math.expm1(-missed / doubt), upper };
}

/** The gap as the stream sees it that comes from the leadpipe. */
export const gapFromBehind = (shape: GapShape): GapShape => ({
  shankExit: shape.leadpipe,
  cavityAtShank: shape.cavityAtLeadpipe,
  cavityAtLeadpipe: shape.cavityAtShank,
  leadpipe: shape.shankExit,
  gap: shape.gap,
});

function filledRadius({ shankExit, cavityAtShank, cavityAtLeadpipe, leadpipe, gap }: GapShape): number {
  const bore = Math.max(shankExit, leadpipe);
  const room = Math.max(0, Math.max(cavityAtShank, cavityAtLeadpipe) - bore);
  return room === 0 ? bore : bore - room * Math.expm1(-gap / room);
}
