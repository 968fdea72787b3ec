/** Deviations as a person reads them. */
import type { Table } from "../../src/charts/kit/drawing.ts";
import type { Check, Outcome } from "./check.ts";
import type { Quantity } from "./heard.ts";

const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** A fraction as a percentage where that is short, as a power of ten where it is not; other units as they are. */
export function deviation(off: number, unit: Check["unit"]): string {
  if (off === 0) return "none";
  const name = unit === "1" ? "" : unit === "°" ? "°" : ` ${unit}`;
  if (unit === "1" && off >= 1e-5) return `${short(100 * off)} %`;
  if (off >= 1e-3) return `${short(off)}${name}`;
  const power = Math.floor(Math.log10(off));
  return `${short(off / 10 ** power)}·10⁻${[...`${-power}`].map((digit) => superscripts[Number(digit)]).join("")}${name}`;
}

const short = (value: number): string => `${Number(value.toPrecision(2))}`;

/** So much of what a player could notice. */
export const heardWords = (size: number, quantity: Quantity): string =>
  quantity === "%" ? `${size === 0 ? "none" : `${small(size)} %`}` : deviation(size, quantity);

const small = (value: number): string =>
  value >= 1e-3 ? short(value) : deviation(value / 100, "1").replace(/ %$/, "");

/** What was held against what, a row a check. */
export const outcomeTable = (outcomes: readonly Outcome[]): Table => ({
  columns: [
    "what",
    "checked against",
    "values",
    "farthest off",
    "where",
    "to a player, at most",
    "a test fails from",
  ],
  rows: outcomes.map(({ name, source, table, samples, worst, unit, heard }) => [
    name,
    `${source} · ${table}`,
    `${samples.length}`,
    deviation(worst.off, unit),
    worst.of,
    Object.entries(heard)
      .map(([quantity, sizes]) => heardWords(Math.max(...sizes), quantity as Quantity))
      .join(", ") || "nothing to hear",
    deviation(worst.asked, unit),
  ]),
});
