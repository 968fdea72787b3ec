/**
 * Moist air: IEC 61094-2:2009, Annex F, which takes the density from CIPM-2007 (Picard et al. 2008, Metrologia 45, 149) and
 * the sound speed and ratio of specific heats from Cramer 1993 (J. Acoust. Soc. Am. 93, 2510). Stated range: 15–27 °C, 60–110 kPa,
 * 10–90 % humidity. The fits are smooth and are used here to 40 °C, a player's breath; at 27 °C the viscosity is within 0.2 %
 * and the Prandtl number 2.3 % above a common dry-air table, which is a third of a per cent of the wall loss.
 */

/** What the line needs to know of a gas; SI. */
export interface Air {
  /** ρ, kg/m³ */
  readonly density: number;
  /** c, m/s */
  readonly soundSpeed: number;
  /** μ, Pa·s */
  readonly viscosity: number;
  /** γ */
  readonly heatRatio: number;
  /** Pr = μ c_p/κ */
  readonly prandtl: number;
}

export interface Climate {
  readonly temperatureC: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
  /** Mole fraction of carbon dioxide. */
  readonly co2: number;
  readonly pressurePa: number;
}

const CALORIE = 4186.8;

/** x_w: mole fraction of water vapour (CIPM-2007, equations A1.1 to A1.3). */
export function waterFraction({ temperatureC: t, humidity, pressurePa: p }: Climate): number {
  const T = t + 273.15;
  const saturation = Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  return (humidity * enhancement * saturation) / p;
}

/** CIPM-2007 density of moist air, kg/m³. */
function density(t: number, p: number, xw: number, xc: number): number {
  const T = t + 273.15;
  const compressibility =
    1 -
    (p / T) *
      (1.58123e-6 -
        2.9331e-8 * t +
        1.1043e-10 * t * t +
        (5.707e-6 - 2.051e-8 * t) * xw +
        (1.9898e-4 - 2.376e-6 * t) * xw * xw) +
    (p / T) ** 2 * (1.83e-11 - 0.765e-8 * xw * xw);
  return (((3.48374 + 1.4446 * (xc - 0.0004)) * 1e-3 * p) / (compressibility * T)) * (1 - 0.378 * xw);
}

type Sixteen = readonly number[];

/** Cramer's form, shared by sound speed and ratio of specific heats. */
const cramer = (a: Sixteen, t: number, p: number, xw: number, xc: number): number =>
  a[0] +
  a[1] * t +
  a[2] * t * t +
  (a[3] + a[4] * t + a[5] * t * t) * xw +
  (a[6] + a[7] * t + a[8] * t * t) * p +
  (a[9] + a[10] * t + a[11] * t * t) * xc +
  a[12] * xw * xw +
  a[13] * p * p +
  a[14] * xc * xc +
  a[15] * xw * p * xc;

// biome-ignore format: two rows of the published table
const SOUND_SPEED: Sixteen = [
  331.5024, 0.603055, -0.000528, 51.471935, 0.1495874, -0.000782, -1.82e-7, 3.73e-8,
  -2.93e-10, -85.20931, -0.228525, 5.91e-5, -2.835149, -2.15e-13, 29.179762, 0.000486,
];
// biome-ignore format: two rows of the published table
const HEAT_RATIO: Sixteen = [
  1.400822, -1.75e-5, -1.73e-7, -0.0873629, -1.665e-4, -3.26e-6, 2.047e-8, -1.26e-10,
  5.939e-14, -0.1199717, -8.693e-4, 1.979e-6, -0.01104, -3.478e-16, 0.0450616, 1.82e-6,
];

/** κ/(ρ c_p) and the rest of the annex's table, for the checks; SI. */
export function moistAir(climate: Climate): Air & { readonly thermalDiffusivity: number } {
  const { temperatureC: t, pressurePa: p, co2: xc } = climate;
  const T = t + 273.15;
  const xw = waterFraction(climate);
  const rho = density(t, p, xw, xc);
  const viscosity = 1e-8 * (84.986 + 7 * T + (113.157 - T) * xw - 3.7501e-3 * T * T - 100.015 * xw * xw);
  const conductivity = CALORIE * 1e-8 * (60.054 + 1.846 * T + 2.06e-6 * T * T + (40 - 1.775e-4 * T) * xw);
  const heatCapacity =
    CALORIE *
    (0.251625 -
      9.2525e-5 * T +
      2.1334e-7 * T ** 2 -
      1.0043e-10 * T ** 3 +
      (0.12477 - 2.283e-5 * T + 1.267e-7 * T ** 2) * xw +
      (0.01116 + 4.61e-6 * T + 1.74e-8 * T ** 2) * xw ** 2);
  return {
    density: rho,
    soundSpeed: cramer(SOUND_SPEED, t, p, xw, xc),
    viscosity,
    heatRatio: cramer(HEAT_RATIO, t, p, xw, xc),
    prandtl: (viscosity * heatCapacity) / conductivity,
    thermalDiffusivity: conductivity / (rho * heatCapacity),
  };
}
