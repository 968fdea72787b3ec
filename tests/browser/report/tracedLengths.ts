/** Lengths on a paper, each traced to something that somebody measured, planned or tried. */
import { expect } from "vitest";
import { mmPerUnit } from "../../../src/units/lengthUnit.ts";

interface Printed {
  readonly text: string;
  readonly mm: number;
  /** Half of its last digit, mm. */
  readonly roundingMm: number;
}

/** Everything with a unit of length behind it, and what stands before it in a range or before its ±. */
export function lengthsIn(text: string): readonly Printed[] {
  const number = String.raw`(?<![\d./])\d+(?:\.\d+)?`;
  const printed = new RegExp(
    String.raw`(?:(${number})\s*(?:to|±|–)\s*)?(${number})\s*(mm|in)(?![\w²/])`,
    "g",
  );
  return [...text.matchAll(printed)].flatMap(([whole, first, second, unit]) =>
    [first, second].flatMap((digits) => {
      if (digits === undefined) return [];
      const unitMm = mmPerUnit(unit)!;
      const decimals = digits.split(".")[1]?.length ?? 0;
      return [{ text: whole, mm: Number(digits) * unitMm, roundingMm: 0.5 * 10 ** -decimals * unitMm }];
    }),
  );
}

/** No length stands there that is not one of these, as finely as it is printed. */
export function expectTraced(text: string, knownMm: readonly number[]): void {
  const found = lengthsIn(text);
  expect(found.length).toBeGreaterThan(0);
  const strangers = found.filter(
    ({ mm, roundingMm }) => !knownMm.some((known) => Math.abs(known - mm) <= 1.02 * roundingMm),
  );
  expect(strangers.map((one) => one.text)).toEqual([]);
}
