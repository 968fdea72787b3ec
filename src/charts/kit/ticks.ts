/** Where the marks of an axis stand and what is written at them. */
import { ticks } from "d3";
import type { LengthUnit } from "../../units/length.ts";
import { clamp, type Scale } from "./drawing.ts";
import { inUnit, tickText } from "./numbers.ts";

export interface Tick {
  readonly value: number;
  readonly text: string;
}

/** How many marks there is room for, one every so many px. */
export const marksIn = (room: number, apart: number, least: number, most = Infinity): number =>
  clamp(Math.floor(room / apart), least, most);

export const ticksAt = (values: readonly number[], text: (value: number) => string = tickText): Tick[] =>
  values.map((value) => ({ value, text: text(value) }));

const ends = (scale: Pick<Scale, "domain">): [number, number] => {
  const [low, high] = scale.domain();
  return [low, high];
};

/** Round numbers along a scale, about so many. */
export const roundTicks = (
  scale: Pick<Scale, "domain">,
  count: number,
  text?: (value: number) => string,
): Tick[] => ticksAt(ticks(...ends(scale), count), text);

/** With its sign, for an axis of changes. */
export const signedText = (value: number): string => tickText(value, true);

/** Marks along a length axis in mm that are round in the unit shown. */
export const lengthTicks = (
  scale: Pick<Scale, "domain">,
  unit: LengthUnit,
  count: number,
  text = (value: number) => tickText(value),
): Tick[] => {
  const [low, high] = ends(scale).map((mm) => inUnit(mm, unit));
  const mmPerUnit = unit === "mm" ? 1 : 25.4;
  return ticks(low, high, count).map((value) => ({ value: value * mmPerUnit, text: text(value) }));
};
