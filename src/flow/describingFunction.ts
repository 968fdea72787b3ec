/**
 * A quadratic loss Δp = k u|u| in an oscillating flow u = |U| sin ωt: only its part in step with the flow takes energy from
 * the tone at ω. The first harmonic of |sin| sin is 8/(3π) sin, so
 *
 *   R = Δp₁/U = (8/3π) k |U| = (8/3π) Δp(|U|)/|U|,   and with k = ρK/(2S²):   R = (4/3π) ρK|U|/S²
 *
 * (the describing function; used for orifices by Ingard & Ising 1967, J. Acoust. Soc. Am. 42, 6, from memory). Where the loss differs
 * between in- and outflow, Δp is the mean of both: the difference makes even harmonics and a steady pressure, no resistance.
 *
 * Range: quasi-steady, the air's travel |U|/(ωS) at least the edge's thickness; no mean flow beside the oscillation.
 */

/** R, Pa·s/m³. @param loss Pa, at a steady flow of the amplitude `amplitude`, m³/s, above 0; mean of both directions */
export const firstHarmonicResistance = (loss: number, amplitude: number): number =>
  ((8 / (3 * Math.PI)) * loss) / amplitude;
