/** What the columns of a measured impedance mean: by their names where they have some, by their numbers where not. */

export type Delimiter = "comma" | "semicolon" | "tab" | "space";
/** What the impedance is given in: Pa·s/m³, ρc/S of the rim, or an unknown unit. */
export type ImpedanceScale = "absolute" | "characteristic" | "relative";

/** How a file is read; all guessed where not given. */
export interface Reading {
  readonly delimiter: Delimiter;
  readonly decimal: "point" | "comma";
  /** What of the impedance is given; `magnitude` has no phase. */
  readonly form: "magnitude-phase" | "real-imaginary" | "magnitude";
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

/** The columns in a row each; the last is empty where there is no phase. */
export type Values = readonly [frequency: number[], first: number[], second: number[]];

const MAGNITUDE = /\bmag|ampl|\babs|\|z|level|\bdb\b|modul/i;
const PHASE = /phase|\barg|angle|\bdeg|°|\brad\b/i;
const REAL = /\bre\b|real|^re[_ ([]|resist/i;
const IMAGINARY = /\bim\b|imag|^im[_ ([]|react/i;

/** Beside a magnitude, a column that is no phase. */
const NO_PHASE = /_u\b|±|uncert|coheren|\bstd\b|deviation/i;
/** dB of something that is no impedance: a sound pressure, a voltage, a full scale. */
const OTHER_LEVEL = /[µμu]pa\b|\bspl\b|dbfs|\bfs\b|\bm?v\b|volt/i;

/**
 * Places of the frequency and of what is given of the impedance, by name; by order where the names say nothing. Two places
 * where there is no phase.
 * @param width how many columns there are
 */
export function columnsOf(header: readonly string[], width: number, form?: Reading["form"]): number[] {
  const find = (pattern: RegExp) => header.findIndex((name) => pattern.test(name));
  const frequency = Math.max(0, find(/freq|^f\b|\bhz/i));
  const [re, im, magnitude, phase] = [REAL, IMAGINARY, MAGNITUDE, PHASE].map(find);
  const others = [0, 1, 2, 3].filter((i) => i !== frequency);
  const alone = [frequency, magnitude >= 0 && magnitude !== frequency ? magnitude : others[0]];
  if (form === "magnitude") return alone;
  if (re >= 0 && im >= 0 && re !== im) return [frequency, re, im];
  if (magnitude >= 0 && phase >= 0 && magnitude !== phase) return [frequency, magnitude, phase];
  if (form === undefined && (width < 3 || (magnitude >= 0 && NO_PHASE.test(header[others[1]] ?? ""))))
    return alone;
  return [frequency, others[0], others[1]];
}

/** Whether a name says that this column alone is no magnitude. */
export const isOnePart = (name: string): boolean =>
  !MAGNITUDE.test(name) && (REAL.test(name) || IMAGINARY.test(name) || PHASE.test(name));

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
    (second.length === 0
      ? "magnitude"
      : REAL.test(firstName) && IMAGINARY.test(secondName)
        ? "real-imaginary"
        : MAGNITUDE.test(firstName) || PHASE.test(secondName) || looksLikePhase(first, second)
          ? "magnitude-phase"
          : "real-imaginary");
  const magnitude =
    given.magnitude ??
    (form !== "real-imaginary" &&
    (/\bdB/i.test(firstName) || negative || (form === "magnitude" && firstName === "" && isFlat(first)))
      ? "dB"
      : "linear");
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
    (OTHER_LEVEL.test(firstName)
      ? "relative"
      : /\bpa\b|pa[·.*_ ]?s|ohm|Ω/i.test(firstName)
        ? "absolute"
        : /\/ ?z[c0]\b|\bz[c0]\b|rho ?c|ρc|characteristic/i.test(firstName)
          ? "characteristic"
          : peak > ABSOLUTE
            ? "absolute"
            : "relative");
  const hertz = given.hertz ?? (/khz/i.test(frequencyName) ? 1000 : 1);
  return { ...given, form, magnitude, phase, scale, hertz, unit };
}

/** Without a name: peaks of brass stand several times as high as the troughs between them, unless they are levels. */
const isFlat = (values: readonly number[]): boolean => largest(values) < 2 * Math.min(...extremes(values));

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
