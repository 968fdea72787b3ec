/** Numbers and notes as they are printed: rounded to what can matter, a true minus sign, mm and inches side by side. */
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

const mmPerInch = 25.4;

/** The length in the unit, full precision, for tables. */
export const inUnit = (lengthMm: number, unit: LengthUnit): number =>
  unit === "mm" ? lengthMm : lengthMm / mmPerInch;

/** A length in both units, the one that is asked for first. */
export const bothUnits = (lengthMm: number, unit: LengthUnit): string =>
  `${formatLength(lengthMm, unit)} · ${formatLength(lengthMm, unit === "mm" ? "in" : "mm")}`;

/** With its sign; what rounds to nothing has none. */
export function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "−" : "+"}${text}`;
}

/** As short as it can be, with a true minus sign and, if asked, a plus sign. */
export const tickText = (value: number, plus = false): string =>
  `${value < 0 ? "−" : plus && value > 0 ? "+" : ""}${Number(Math.abs(value).toPrecision(6))}`;

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

const noteNames = ["C", "D♭", "D", "E♭", "E", "F", "G♭", "G", "A♭", "A", "B♭", "B"];
const a4 = { number: 69, hz: 440 };

export interface Note {
  readonly name: string;
  /** Of the equally tempered note. */
  readonly hz: number;
  /** How far above it the frequency lies. */
  readonly cents: number;
}

/** The equally tempered note nearest to a frequency, at concert pitch. */
export function nearestNote(hz: number): Note {
  const exact = a4.number + 12 * Math.log2(hz / a4.hz);
  const number = Math.round(exact);
  return {
    name: `${noteNames[((number % 12) + 12) % 12]}${Math.floor(number / 12) - 1}`,
    hz: a4.hz * 2 ** ((number - a4.number) / 12),
    cents: 100 * (exact - number),
  };
}

/** Marks along a length axis in the unit shown, as mm. */
export function lengthTicks(
  scale: { domain(): number[] },
  ticksOf: (low: number, high: number, count: number) => number[],
  unit: LengthUnit,
  count: number,
): { mm: number; text: string }[] {
  const [low, high] = scale.domain().map((mm) => inUnit(mm, unit));
  return ticksOf(low, high, count).map((value) => ({
    mm: unit === "mm" ? value : value * mmPerInch,
    text: tickText(value),
  }));
}
