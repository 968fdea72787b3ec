/**
 * The layer between a uniform stream of speed U and the still air beside it, x behind the edge it left (the "lip"):
 *
 *   u = ½U erfc(s),   s = y/ℓ + s_lip,   y outward from the lip
 *   ℓ² = 8νx/U + w (0.18 x)²/π,   w how far the stream is turbulent, 0 to 1
 *
 * Laminar part: diffusion carried along at U/2, the first approximation of the laminar half-jet (Görtler 1942, from memory);
 * its steepest slope is 0.1 % from that of the exact boundary layer (tests/reference). Turbulent part: the layer's
 * vorticity thickness, U over its steepest slope, √π ℓ here, grows by 0.18 of the distance (Brown & Roshko 1974, J. Fluid
 * Mech. 64, 775, from memory; 0.16 to 0.18 elsewhere). Over so short a way as a gap a layer is what the pipe before delivers: it
 * has no room to become turbulent by itself.
 *
 * Conservation of momentum puts the lip at s_lip = −1/√(2π) (there u = 0.71 U). The stream that came from inside the lip ends
 * at the dividing streamline, where u = 0.62 U; what flows outside it is entrained.
 *
 * Range: thin layers, ℓ well below the jet's radius, in still air; a thick boundary layer already there at the lip is not
 * known to it.
 */
import { complementaryError as erfc } from "../statistics/incomplete.ts";

const GROWTH = 0.18;

/** s at the lip. */
export const LIP = -1 / Math.sqrt(2 * Math.PI);

/** ∫ₛ^∞ u/U ds: flow outside s, in Uℓ a unit of the edge's length. */
const flowBeyond = (s: number): number => 0.5 * (Math.exp(-s * s) / Math.sqrt(Math.PI) - s * erfc(s));

/** s at the dividing streamline: ∫ₛ^∞ u/U ds = −s_lip leaves inside it the flow that left the lip; Newton's method. */
export const DIVIDING = (() => {
  let s = 0;
  for (let i = 0; i < 20; i++) s += (flowBeyond(s) + LIP) / (0.5 * erfc(s));
  return s;
})();

/** ∫ₛ^∞ (u/U)² ds: momentum outside s, in ρU²ℓ a unit of the edge's length. */
export function momentumBeyond(s: number): number {
  const e = erfc(s);
  return (
    0.25 *
    ((2 / Math.sqrt(Math.PI)) * Math.exp(-s * s) * e -
      s * e * e -
      Math.sqrt(2 / Math.PI) * erfc(Math.SQRT2 * s))
  );
}

/**
 * ℓ, m.
 * @param distance x, m
 * @param speed U, m/s, above 0
 * @param turbulent w
 */
export function layerScale(
  distance: number,
  speed: number,
  kinematicViscosity: number,
  turbulent: number,
): number {
  const diffusion = (8 * kinematicViscosity * distance) / speed;
  const turbulence = (GROWTH * distance) ** 2 / Math.PI;
  return Math.sqrt(diffusion + turbulent * turbulence);
}

/** How sharply the lesser of two places in the layer takes over, for a result without a kink. */
const SHARPNESS = 8;

const lesser = (a: number, b: number): number =>
  Math.min(a, b) - Math.log1p(Math.exp(-SHARPNESS * Math.abs(a - b))) / SHARPNESS;

/**
 * Momentum that no longer arrives inside a receiving edge at y, in ρU² a unit of the edge's length, m: what a layer of no
 * thickness would have brought there less what comes through inside both the edge and the dividing streamline (no more than
 * the stream itself can go on; entrained air turns back).
 * @param y of the receiving edge outward from the lip, m; negative faces the stream
 * @param scale ℓ, m
 */
export function missedMomentum(y: number, scale: number): number {
  if (scale === 0) return 0;
  const edge = lesser(LIP + y / scale, DIVIDING);
  return Math.max(0, Math.min(0, y) + scale * momentumBeyond(edge));
}
