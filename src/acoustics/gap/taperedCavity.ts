/** A cavity that narrows or widens a little, from the fields of the straight one. */
import { zeroOfJ1 } from "../numerics/bessel.ts";
import { amplitudes, type Opening, type Overlaps } from "./opening.ts";

/** Places along the cavity where the wall's velocity is taken: far past 1 % of the change. */
const PLACES = 16;
/** Modes that the wall's velocity is summed from; as far past it. */
export const WALL_MODES = 32;

/**
 * What M loses or gains as the straight wall of mean radius a becomes a cone, to first order in its slope: a wall that gives
 * way by δa(z) takes ½ρ|u|² 2πa δa of energy (Hadamard 1908), u the velocity along it. Slices would do the same with more
 * work, and each slice's own little step would add to M what a smooth wall has not.
 */
export function wallDisplacement(
  radius: number,
  length: number,
  given: (t: number) => number,
  { near, far }: { readonly near: Overlaps; readonly far: Overlaps },
  velocities: readonly Float64Array[],
  entrance: Opening,
  exit: Opening,
): readonly [d11: number, d12: number, d22: number] {
  const area = Math.PI * radius * radius;
  const [nearOfFirst, farOfFirst, nearOfSecond, farOfSecond] = velocities.flatMap((c) => [
    amplitudes(near, entrance, c, area, WALL_MODES),
    amplitudes(far, exit, c, area, WALL_MODES),
  ]);
  // crowded at the ends, z = ℓ(1 − cos θ)/2, and the same seen from both
  const angle = (k: number) => (Math.PI * (k + 0.5)) / PLACES;
  const places = Array.from({ length: PLACES }, (_, k) => (1 - Math.cos(angle(k))) / 2);
  const reaching = reachingTo(places, length / radius);
  let d11 = 0;
  let d12 = 0;
  let d22 = 0;
  for (let k = 0; k < PLACES; k++) {
    const t = places[k];
    const fromNear = reaching[k];
    const fromFar = reaching[PLACES - 1 - k];
    // velocities along the wall, of the flow through either opening: plane, and with the modes
    const plane1 = (1 - t) / area;
    const plane2 = t / area;
    let wall1 = plane1;
    let wall2 = plane2;
    for (let n = 0; n < WALL_MODES; n++) {
      wall1 += nearOfFirst[n] * fromNear[n] + farOfFirst[n] * fromFar[n];
      wall2 += nearOfSecond[n] * fromNear[n] + farOfSecond[n] * fromFar[n];
    }
    const dz = (length / 2) * Math.sin(angle(k)) * (Math.PI / PLACES);
    const taken = -2 * Math.PI * radius * given(t) * dz;
    d11 += taken * (wall1 * wall1 - plane1 * plane1);
    d12 += taken * (wall1 * wall2 - plane1 * plane2);
    d22 += taken * (wall2 * wall2 - plane2 * plane2);
  }
  return [d11, d12, d22];
}

/**
 * sinh(x(1−t))/sinh x of every mode, x = α_n ℓ/a: what of it is left at t of the way, for every place t.
 * @param places as many before the middle as after it, in mirror image: e^{−x(2−t)} = e^{−x} e^{−x(1−t)} is then one of the others
 */
function reachingTo(places: readonly number[], slenderness: number): readonly Float64Array[] {
  const left = places.map(() => new Float64Array(WALL_MODES));
  const last = places.length - 1;
  const fallen = new Float64Array(places.length);
  for (let n = 0; n < WALL_MODES; n++) {
    const x = zeroOfJ1(n + 1) * slenderness;
    const across = Math.exp(-x);
    const scale = -1 / Math.expm1(-2 * x);
    for (let k = 0; k <= last; k++) fallen[k] = Math.exp(-x * places[k]);
    for (let k = 0; k <= last; k++) left[k][n] = (fallen[k] - across * fallen[last - k]) * scale;
  }
  return left;
}
