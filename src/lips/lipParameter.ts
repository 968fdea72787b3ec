/** What modelled lips are made of: each parameter's usual value, where that comes from, and how far it may be off. */
import { OutOfRange } from "../units/outOfRange.ts";

/** A parameter's usual value, where it comes from, and how far it may be off. */
export interface LipParameter {
  /** In words. */
  readonly label: string;
  readonly value: number;
  /** It is thought to lie between these. */
  readonly range: readonly [low: number, high: number];
  /** What `checkParameters` takes. */
  readonly allowed: readonly [low: number, high: number];
  readonly unit: string;
  readonly source: string;
}

/** What is used unless a person says otherwise. */
export const usualValues = <Name extends string>(
  parameters: {
    readonly [name in Name]: LipParameter;
  },
): Readonly<Record<Name, number>> =>
  Object.freeze(
    Object.fromEntries(
      Object.entries<LipParameter>(parameters).map(([name, { value }]) => [name, value]),
    ) as Record<Name, number>,
  );

/** @throws OutOfRange naming the parameter, its value and what would be right */
export function checkParameters<Name extends string>(
  lips: { readonly [name in Name]: number },
  parameters: { readonly [name in Name]: LipParameter },
): void {
  for (const name of Object.keys(parameters) as Name[]) {
    const { label, allowed, unit } = parameters[name];
    const value = lips[name];
    if (!(value >= allowed[0] && value <= allowed[1]))
      throw new OutOfRange(
        `the lips' ${label} of ${value} cannot be used: give ${allowed[0]} to ${allowed[1]}${unit === "1" ? "" : ` ${unit}`}`,
      );
  }
}
