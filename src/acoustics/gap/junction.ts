/**
 * Inertance of steps between coaxial cylinders, by mode matching.
 *
 * One step between two long round ducts, or two steps with a cavity of length ℓ between, as at the gap. At each the axial
 * velocity in the opening (radius b, the smaller of its two ducts) is a sum of Legendre polynomials in 1 − 2r²/b², of which
 * only the first carries flow. Every duct answers with its evanescent radial modes ψ_n = J₀(α_n r/a)/J₀(α_n), J₁(α_n) = 0,
 * whose static impedances jωρ·a/(α_n S) couple the two openings of a short duct by coth and csch of α_n ℓ/a, so the
 * fields of neighbouring steps interact. The overlaps are closed: ∫₀¹ P_q(1−2s²) J₀(xs) s ds = J_{2q+1}(x)/x.
 * Minimising the kinetic energy for given flows U (Thomson's theorem: the polynomials give a bound from above, the finite
 * number of modes one from below) leaves p_before − p_after = jωρ M U, M symmetric, beside the plane waves.
 *
 * Method: Karal 1953 (J. Acoust. Soc. Am. 25, 327) for one step; Kergomard & Garcia 1987 (J. Sound Vib. 114, 465) for its
 * higher modes. The expansion of the opening instead of its modes is Galerkin's method, done here for this problem.
 * Range: quasi-static, (ka/α₁)² ≪ 1: at 2 kHz in a 10 mm cavity the neglected part is 0.1 % of M.
 *
 * A very short duct locks its two openings to each other; where one is larger it also gets the polynomials of the smaller
 * one, so that a gap → 0 goes over to the single step from the first duct to the last.
 */
import { addLongDuct, addShortDuct } from "./ductEnergy.ts";
import { leastEnergyField } from "./leastEnergy.ts";
import { amplitudes, type Opening, openingsOf, overlaps } from "./opening.ts";
import { wallDisplacement } from "./taperedCavity.ts";

/** [M₁₁, M₁₂, M₂₂]/ρ in 1/m, for flows through the opening at the shank's end and the one at the leadpipe. */
export type StepInertance = readonly [m11: number, m12: number, m22: number];

/** M/ρ in 1/m of the single step between two long ducts of radii a and b, m. */
export function stepInertance(a: number, b: number): number {
  const [opening] = openingsOf([a, b], []);
  const energy = new Float64Array(opening.end ** 2);
  addLongDuct(energy, opening.end, a, opening);
  addLongDuct(energy, opening.end, b, opening);
  return leastEnergyField(energy, opening.end, [opening]).inertance[0];
}

/**
 * M/ρ in 1/m of a long duct, a cavity of `length` that narrows or widens evenly, and another long duct; all m.
 */
export function cavitySteps(
  shankExit: number,
  cavityAtShank: number,
  cavityAtLeadpipe: number,
  leadpipe: number,
  length: number,
): StepInertance {
  const widening = cavityAtLeadpipe - cavityAtShank;
  const mean = (cavityAtShank + cavityAtLeadpipe) / 2;
  const radius = widening === 0 ? mean : rounded(mean, Math.max(shankExit, leadpipe));
  const [entrance, exit] = openingsOf([shankExit, radius, leadpipe], [length]);
  const size = exit.end;
  const energy = new Float64Array(size * size);
  addLongDuct(energy, size, shankExit, entrance);
  const modes = addShortDuct(energy, size, radius, length, entrance, exit);
  addLongDuct(energy, size, leadpipe, exit);
  const { inertance: m, velocities } = leastEnergyField(energy, size, [entrance, exit]);
  const straight: StepInertance = [m[0], m[1], m[3]];
  if (widening === 0) return straight;
  const [d11, d12, d22] = wallDisplacement(
    radius,
    length,
    (t) => mean - radius + widening * (t - 0.5),
    modes,
    velocities,
    entrance,
    exit,
  );
  return [straight[0] + d11, straight[1] + d12, straight[2] + d22];
}

/** Amplitudes of the evanescent modes, ψ_n = 1 at the wall, as axial velocity over flow, 1/m². */
export interface StepField {
  /** In the shank's exit, at its end. */
  readonly shankExit: Float64Array;
  /** In the cavity, at the shank and at the leadpipe. */
  readonly near: Float64Array;
  readonly far: Float64Array;
  /** In the leadpipe, at its mouth. */
  readonly leadpipe: Float64Array;
}

/** What the fields at the two ends of a straight cavity are made of, beside the plane flow through all three ducts; all m. */
export function stepField(
  shankExit: number,
  cavity: number,
  leadpipe: number,
  length: number,
  modes: number,
): StepField {
  const [entrance, exit] = openingsOf([shankExit, cavity, leadpipe], [length]);
  const size = exit.end;
  const energy = new Float64Array(size * size);
  addLongDuct(energy, size, shankExit, entrance);
  addShortDuct(energy, size, cavity, length, entrance, exit);
  addLongDuct(energy, size, leadpipe, exit);
  const [first, second] = leastEnergyField(energy, size, [entrance, exit]).velocities;
  const through = first.map((c, i) => c + second[i]);
  const of = (radius: number, opening: Opening) =>
    amplitudes(overlaps(opening, radius, modes), opening, through, Math.PI * radius * radius, modes);
  return {
    shankExit: of(shankExit, entrance),
    near: of(cavity, entrance),
    far: of(cavity, exit),
    leadpipe: of(leadpipe, exit),
  };
}

/**
 * The straight cavity a tapered one is reckoned from: a few round radii serve a whole sweep, whose long-duct energies are
 * then known; the wall's displacement takes up the rest. Where a step is small its size matters, and the mean is kept.
 */
function rounded(mean: number, bore: number): number {
  const quantum = 2 ** Math.floor(Math.log2(mean / 200));
  return mean - bore < 8 * quantum ? mean : quantum * Math.round(mean / quantum);
}
