/** What is no length, as a person types it: a number, perhaps with a unit; `45 %`, `1013 hPa`, `1:20`. */
import { quoteTyped } from "../../units/inputError.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";

export interface Quantity {
  /** What a bare number is in, and what is shown; empty for a plain number. */
  readonly unit: string;
  /** The file's number for one in `unit`. */
  readonly toFile: (shown: number) => number;
  readonly fromFile: (inFile: number) => number;
  /** Other units that are understood, in lower case without spaces. */
  readonly others?: Readonly<Record<string, (typed: number) => number>>;
  /** Whether `1:20`, `1/20` and `1 in 20` are understood. */
  readonly isRatio?: boolean;
}

/** What the file takes, in the file's own unit. */
export interface Limits {
  readonly least: number;
  readonly most: number;
}

const same = (x: number) => x;
const times = (factor: number) => (x: number) => x * factor;
const over = (divisor: number) => (x: number) => x / divisor;
const plain = (unit: string, others: Quantity["others"] = {}): Quantity => ({
  unit,
  toFile: same,
  fromFile: same,
  others,
});

export const number = plain("");
export const temperature = plain("°C", {
  c: same,
  k: (x) => x - 273.15,
  f: (x) => ((x - 32) * 5) / 9,
  "°f": (x) => ((x - 32) * 5) / 9,
});
/** A difference of temperatures. */
export const temperatureDifference = plain("°C", { c: same, k: same });
export const percent: Quantity = { unit: "%", toFile: over(100), fromFile: times(100) };
/** Per cent that the file has as per cent too. */
export const perCent = plain("%");
export const partsPerMillion: Quantity = {
  unit: "ppm",
  toFile: over(1e6),
  fromFile: times(1e6),
  others: { "%": over(100) },
};
export const pressure: Quantity = {
  unit: "hPa",
  toFile: times(100),
  fromFile: over(100),
  others: { pa: same, kpa: times(1000), mbar: times(100), bar: times(1e5) },
};
export const density = plain("kg/m³", { "kg/m3": same, "g/l": same });
export const speed = plain("m/s");
export const viscosity: Quantity = {
  unit: "µPa·s",
  toFile: over(1e6),
  fromFile: times(1e6),
  others: { upa·s: over(1e6), upas: over(1e6), pa·s: same, pas: same },
};
export const cents = plain("cents", { cent: same, ct: same });
export const decibels = plain("dB");
export const taper: Quantity = {
  ...plain("", { "%": over(100), "in/ft": over(12) }),
  isRatio: true,
};

/** The number in the file, or why there is none. */
export function readQuantity(
  text: string,
  quantity: Quantity,
  limits: Limits,
): { readonly value: number } | { readonly refused: string } {
  const refused = (why: string) => ({
    refused: `${quoteTyped(text.trim())} ${why}; give ${rangeText(quantity, limits)}`,
  });
  const typed = understood(text, quantity);
  if (typeof typed === "string") return refused(typed);
  if (!Number.isFinite(typed)) return refused("is not a finite number");
  const value = withoutRoundingNoise(typed);
  return value >= limits.least && value <= limits.most ? { value } : refused("is out of range");
}

/** The file's number as it is shown, without its unit. */
export const quantityText = (inFile: number, { fromFile }: Quantity): string =>
  String(Number(fromFile(inFile).toPrecision(8)));

function rangeText(quantity: Quantity, { least, most }: Limits): string {
  const unit = quantity.unit && ` ${quantity.unit}`;
  const ratio = quantity.isRatio ? ", such as 0.05 or 1:20" : "";
  return `a number from ${quantityText(least, quantity)} to ${quantityText(most, quantity)}${unit}${ratio}`;
}

const digits = String.raw`[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?`;
const numberAndUnit = new RegExp(`^(${digits})(.*)$`, "i");
const ratio = new RegExp(`^(${digits})(?::|/|in)(${digits})$`, "i");

/** The typed number in the file's unit, or what is wrong with the text. */
function understood(text: string, { unit, toFile, others = {}, isRatio }: Quantity): number | string {
  const typed = text
    .normalize("NFC")
    .replaceAll("−", "-")
    .replace(/[µμ]/g, "u")
    .replace(/\s+/g, "")
    .toLowerCase();
  if (/^[+-]?[1-9]\d{0,2},\d{3}(?!\d)/.test(typed))
    return "can be read in two ways (comma for thousands or for decimals): write it with a point";
  const two = isRatio ? ratio.exec(typed) : null;
  if (two) return numberOf(two[1]) / numberOf(two[2]);
  const match = numberAndUnit.exec(typed);
  if (!match) return "is not a number";
  const value = numberOf(match[1]);
  const named = match[2];
  if (named === "" || named === unit.replace("µ", "u").toLowerCase()) return toFile(value);
  return Object.hasOwn(others, named) ? others[named](value) : "has a unit that is not known here";
}

const numberOf = (text: string): number => Number(text.replace(",", "."));
