/** What the columns of a measured impedance mean: by their names where they have some, by their numbers where not. */

export type Delimiter = "comma" | "semicolon" | "tab" | "space";
/** What the impedance is given in: Pa·s/m³, ρc/S of the rim, or an unknown unit. */
export type ImpedanceScale = "absolute" | "characteristic" | "relative";

/** How a file is read; all guessed where not given. */
export interface Reading {
  readonly delimiter: Delimiter;
  readonly decimal: "point" | "comma";
  readonly form: "magnitude-phase" | "real-imaginary";
  readonly magnitude: "linear" | "dB";
  readonly phase: "degrees" | "radians";
  readonly scale: ImpedanceScale;
  /** Hz in one unit of the frequency column. */
  readonly hertz: number;
  /** Pa·s/m³ in one unit of an absolute impedance. */
  readonly unit: number;
}

/** More than this is no multiple of ρc/S: the smallest ρc/S of a mouthpiece rim is above 3e5 Pa·s/m³. */
const ABSOLUTE = 1e5;

/** The three columns in a row each. */
export type Values = readonly [frequency: number[], first: number[], second: number[]];

const MAGNITUDE = /\bmag|ampl|\babs|\|z|level|\bdb\b|modul/i;
const PHASE = /phase|\barg|angle|\bdeg|°|\brad\b/i;
const REAL = /\bre\b|real|^re[_ ([]|resist/i;
const IMAGINARY = /\bim\b|imag|^im[_ ([]|react/i;

/** Places of frequency and the two parts of the impedance, by name; by order where the names say nothing. */
export function columnsOf(header: readonly string[]): number[] {
  const find = (pattern: RegExp) => header.findIndex((name) => pattern.test(name));
  const frequency = Math.max(0, find(/freq|^f\b|\bhz/i));
  const [re, im, magnitude, phase] = [REAL, IMAGINARY, MAGNITUDE, PHASE].map(find);
  if (re >= 0 && im >= 0 && re !== im) return [frequency, re, im];
  if (magnitude >= 0 && phase >= 0 && magnitude !== phase) return [frequency, magnitude, phase];
  const others = [0, 1, 2, 3].filter((i) => i !== frequency);
  return [frequency, others[0], others[1]];
}

const largest = (values: readonly number[]): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** How the columns of a table of impedance are to be read: what is given, and what names and values suggest. */
export function readingOf(
  [frequencyName, firstName, secondName]: readonly string[],
  [, first, second]: Values,
  given: Partial<Reading> & Pick<Reading, "delimiter" | "decimal">,
): Reading {
  const negative = first.some((value) => value < 0);
  const form =
    given.form ??
    (REAL.test(firstName) && IMAGINARY.test(secondName)
      ? "real-imaginary"
      : MAGNITUDE.test(firstName) || PHASE.test(secondName)
        ? "magnitude-phase"
        : looksLikePhase(first, second)
          ? "magnitude-phase"
          : "real-imaginary");
  const magnitude =
    given.magnitude ??
    (form === "magnitude-phase" && (/\bdB\b/i.test(firstName) || negative) ? "dB" : "linear");
  const phase =
    given.phase ??
    (/deg|°/i.test(secondName)
      ? "degrees"
      : /\brad/i.test(secondName)
        ? "radians"
        : largest(second) > 2 * Math.PI
          ? "degrees"
          : "radians");
  const unit = given.unit ?? unitOf(firstName);
  const peak = magnitude === "dB" ? 10 ** (Math.max(...extremes(first)) / 20) : largest(first);
  const scale =
    given.scale ??
    (/\bpa\b|pa[·.*_ ]?s|ohm|Ω/i.test(firstName)
      ? "absolute"
      : /\/ ?z[c0]\b|\bz[c0]\b|rho ?c|ρc|characteristic/i.test(firstName)
        ? "characteristic"
        : peak > ABSOLUTE
          ? "absolute"
          : "relative");
  const hertz = given.hertz ?? (/khz/i.test(frequencyName) ? 1000 : 1);
  return { ...given, form, magnitude, phase, scale, hertz, unit };
}

/** Without names: angles keep within a turn while the other column does not, or is in dB. */
function looksLikePhase(first: readonly number[], second: readonly number[]): boolean {
  const turn = largest(second);
  if (first.some((value) => value < 0)) return turn <= 361;
  return turn <= 361 && largest(first) > 100 * turn;
}

const extremes = (values: readonly number[]): [number, number] =>
  values.reduce<[number, number]>(
    ([low, high], v) => [Math.min(low, v), Math.max(high, v)],
    [Infinity, -Infinity],
  );

/**
 * Pa·s/m³ in the unit a header names. A bare acoustic ohm is the CGS one, 1e5 of them; one with a prefix, as published curves
 * have it in MΩ, is the SI's, 1 Pa·s/m³.
 */
function unitOf(name: string): number {
  const prefixed = /\b([kMG])(Pa|ohm|Ohm|Ω)/.exec(name);
  if (prefixed) return { k: 1e3, M: 1e6, G: 1e9 }[prefixed[1] as "k" | "M" | "G"];
  return /ohm|Ω/i.test(name) ? 1e5 : 1;
}
