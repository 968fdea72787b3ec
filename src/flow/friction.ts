/**
 * Wall friction of fully developed flow in a round pipe, Darcy's factor f: dp/dx = −f ½ρu²/D.
 *
 *   laminar      f = 64/Re                                             Hagen–Poiseuille, Re ≤ 2300
 *   turbulent    1/√f = −2 lg( ε/(3.7 D) + 2.51/(Re √f) )              Colebrook 1939, Re ≥ 4000
 *   between      f = f_laminar^(1−w) f_turbulent^w, w = s²(3 − 2s), s how far ln Re is on its way from 2300 to 4000
 *
 * Colebrook's equation is solved explicitly by Steffensen's extrapolation of three of its iterates (Serghides 1984, from
 * memory), good to 0.002 % for Re up to 1e8. Between the two, real flow is intermittent and no factor is right; the blend only
 * joins them without a jump in value or slope, so that the drop keeps rising with the flow.
 *
 * What the factor cannot know: the entrance region. A profile needs 0.06 Re diameters (laminar) or some 20 (turbulent) to
 * develop, longer than any part of a mouthpiece; friction is higher there than this factor says.
 */

export const LAMINAR_UP_TO = 2300;
export const TURBULENT_FROM = 4000;

/** Roughness of drawn tubing, m (Moody 1944, Trans. ASME 66, 671). */
export const DRAWN_TUBING = 1.5e-6;

export type Regime = "laminar" | "transitional" | "turbulent";

/** In which regime a stream of this Reynolds number is taken to be. */
export const regimeOf = (reynolds: number): Regime =>
  reynolds <= LAMINAR_UP_TO ? "laminar" : reynolds < TURBULENT_FROM ? "transitional" : "turbulent";

/** Re = uD/ν = 4Q/(πDν) of a flow in m³/s through a radius in m. */
export const reynoldsNumber = (flow: number, radius: number, kinematicViscosity: number): number =>
  (2 * flow) / (Math.PI * radius * kinematicViscosity);

/** 0 at `from` and below, 1 at `to` and above, smooth in ln x between. */
function smoothRise(x: number, from: number, to: number): number {
  const s = Math.min(1, Math.max(0, Math.log(x / from) / Math.log(to / from)));
  return s * s * (3 - 2 * s);
}

/** w: how far a pipe's stream of this Reynolds number is from laminar, 0, to turbulent, 1. */
export const turbulentPart = (reynolds: number): number =>
  smoothRise(reynolds, LAMINAR_UP_TO, TURBULENT_FROM);

/**
 * Darcy's f.
 * @param reynolds above 0
 * @param relativeRoughness ε/D
 */
export function frictionFactor(reynolds: number, relativeRoughness: number): number {
  const laminar = 64 / reynolds;
  if (reynolds <= LAMINAR_UP_TO) return laminar;
  const turbulent = colebrook(reynolds, relativeRoughness);
  const w = turbulentPart(reynolds);
  return laminar ** (1 - w) * turbulent ** w;
}

function colebrook(reynolds: number, relativeRoughness: number): number {
  // x = 1/√f is the fixed point of this
  const next = (x: number) => -2 * Math.log10(relativeRoughness / 3.7 + (2.51 * x) / reynolds);
  const a = next(12 / 2.51);
  const b = next(a);
  const c = next(b);
  return (a - (b - a) ** 2 / (c - 2 * b + a)) ** -2;
}
