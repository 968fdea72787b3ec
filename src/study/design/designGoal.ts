/**
 * What a leadpipe shall be designed for: quantities of its instrument's resonances, each with the value it should have and how
 * often it counts. The search makes Σ w·miss² least. As text `cents2=0, cents3=0@2, height4=32`; as JSON `{ "fundamental": 116.5, "targets":
 * [{ "quantity": "cents", "n": 2, "target": 0, "weight": 1 }] }`; or another instrument's resonances.
 */
import { InputError, quoteTyped } from "../../units/inputError.ts";
import type { Mode } from "../instrument/instrument.ts";
import { decibels } from "../instrument/pitch.ts";

/** f: resonance, Hz, its miss counted in cents; cents: f_n/n against the fundamental; height: dB above 1 MPa·s/m³; spacing: cents to the next. */
export const DESIGNED = ["f", "cents", "height", "spacing"] as const;
export type Designed = (typeof DESIGNED)[number];

export interface Target {
  readonly quantity: Designed;
  readonly n: number;
  readonly target: number;
  /** How often it counts: one of weight 2 as if it stood in the goal twice. `2:1, 5:2` of a comparison's goal means the same. */
  readonly weight: number;
}

export interface DesignGoal {
  readonly targets: readonly Target[];
  /** What `cents` are counted from, Hz; null: the common fundamental of the instrument itself. */
  readonly fundamentalHz: number | null;
}

const EXAMPLE = "cents2=0, cents3=0@2, height4=32";
const MOST_RESONANCE = 20;

/** @throws {InputError} naming what cannot be read */
export function parseDesignGoal(text: string): DesignGoal {
  return text.trimStart().startsWith("{") ? fromJson(text) : fromText(text);
}

function fromText(text: string): DesignGoal {
  const targets = text.split(",").map((part) => {
    const match = /^\s*([a-z]+)(\d{1,2})\s*=\s*([^@\s]+)\s*(?:@\s*(\S+)\s*)?$/i.exec(part);
    if (!match)
      throw new InputError(`${quoteTyped(part.trim())} is no target; give a list such as ${EXAMPLE}`);
    const [, quantity, n, target, weight = "1"] = match;
    return checked({ quantity, n: Number(n), target: Number(target), weight: Number(weight) }, part.trim());
  });
  return { targets: eachOnce(targets), fundamentalHz: null };
}

function fromJson(text: string): DesignGoal {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    throw new InputError(
      `the goal is not JSON (${(error as Error).message.replace(/\s+/g, " ")}); give { "targets": [ … ] }`,
    );
  }
  const { targets, fundamental = null, ...others } = json as { targets?: unknown; fundamental?: unknown };
  const [unknownKey] = Object.keys(others);
  if (unknownKey)
    throw new InputError(`${quoteTyped(unknownKey)} is no part of a goal; give fundamental and targets`);
  if (!Array.isArray(targets) || targets.length === 0)
    throw new InputError('targets: give a list of { "quantity", "n", "target", "weight" }, at least one');
  if (fundamental !== null && !(typeof fundamental === "number" && fundamental > 0 && fundamental < 1e4))
    throw new InputError(
      `fundamental: ${quoteTyped(String(fundamental))} is no frequency; give Hz above 0, or leave it out`,
    );
  return {
    targets: eachOnce(
      targets.map((given: unknown, i) => {
        const { quantity, n, target, weight = 1, ...others } = (given ?? {}) as Record<string, unknown>;
        const [unknownKey] = Object.keys(others);
        if (unknownKey)
          throw new InputError(
            `targets[${i}]: ${quoteTyped(unknownKey)} is no part of a target; give { "quantity": "cents", "n": 2, "target": 0, "weight": 1 }`,
          );
        return checked({ quantity, n, target, weight }, `targets[${i}]`);
      }),
    ),
    fundamentalHz: fundamental,
  };
}

function checked({ quantity, n, target, weight }: Record<keyof Target, unknown>, where: string): Target {
  const refuse = (message: string) => new InputError(`${quoteTyped(where)}: ${message}`);
  const named = DESIGNED.find((name) => name === quantity);
  if (!named) throw refuse(`${quoteTyped(String(quantity))} is not known; known are ${DESIGNED.join(", ")}`);
  if (!(typeof n === "number" && Number.isInteger(n) && n >= 1 && n <= MOST_RESONANCE))
    throw refuse(`n: give the resonance's number, 1 to ${MOST_RESONANCE}`);
  if (!(typeof target === "number" && Math.abs(target) < 1e5) || (named === "f" && target <= 0))
    throw refuse(`target: give the value it should have, such as ${named === "f" ? "233.1 (Hz)" : "0"}`);
  if (!(typeof weight === "number" && weight > 0 && weight <= 1000))
    throw refuse("weight: give one above 0, to 1000");
  return { quantity: named, n, target, weight };
}

/** A quantity cannot be wanted at two values. */
function eachOnce(targets: readonly Target[]): readonly Target[] {
  targets.forEach(({ quantity, n }, i) => {
    const first = targets.findIndex((other) => other.quantity === quantity && other.n === n);
    if (first < i) throw new InputError(`${quantity}${n} stands in the goal twice; give it one value`);
  });
  return targets;
}

/** The frequencies, and heights where there are peaks, of an instrument to be equalled. @param played numbers from and to */
export function goalLike(
  modes: readonly Mode[],
  [from, to]: readonly [number, number],
  heightWeight = 1,
): DesignGoal {
  const targets = modes
    .filter(({ n }) => n >= from && n <= to)
    .flatMap(({ n, frequencyHz, peakImpedance }): Target[] => [
      { quantity: "f", n, target: frequencyHz, weight: 1 },
      ...(peakImpedance === null || heightWeight === 0
        ? []
        : [{ quantity: "height" as const, n, target: decibels(peakImpedance, 1e6), weight: heightWeight }]),
    ]);
  return { targets, fundamentalHz: null };
}

/** Resonances that must be known for a goal: those it names, their neighbours, and the common fundamental's. */
export const resonancesNeeded = ({ targets }: DesignGoal): number =>
  Math.max(10, ...targets.map(({ n }) => n + 1));
