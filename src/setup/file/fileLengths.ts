/** Reads lengths out of a setup file, as far as they can be read: what is missing or refused comes back undefined. */
import { LengthError, type LengthUnit, parseLengthMm } from "../../units/length.ts";
import { type Problem, pathText, valueText } from "../problem.ts";
import type { ProfileMm } from "../setup.ts";

type Keys = readonly (string | number)[];

const longestMm = 20_000;

/** What stands in plain JSON under these keys; undefined when nothing does. */
export function valueAt(json: unknown, keys: Keys): unknown {
  let value = json;
  for (const key of keys) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}

/** A reader of the lengths in `json`, in mm; it adds what it cannot read to `problems`. */
export function fileLengths(json: unknown, problems: Problem[]) {
  const unit: LengthUnit = valueAt(json, ["units"]) === "in" ? "in" : "mm";

  /** The length at a place. A value of the wrong type is left to the schema to refuse. */
  function lengthMmAt(...keys: Keys): number | undefined {
    const value = valueAt(json, keys);
    if (typeof value !== "number" && typeof value !== "string") return undefined;
    const refuse = (message: string) => {
      problems.push({ path: pathText(keys), value, message });
      return undefined;
    };
    try {
      const lengthMm = parseLengthMm(value, unit);
      if (Math.abs(lengthMm) > longestMm) return refuse(`${valueText(value)} is too long; give at most 20 m`);
      return lengthMm;
    } catch (error) {
      if (error instanceof LengthError) return refuse(error.message);
      throw error;
    }
  }

  /** The profile of a part, when every point of it can be read. */
  function profileMmAt(part: string): ProfileMm | undefined {
    const points = valueAt(json, [part, "profile"]);
    if (!Array.isArray(points)) return undefined;
    const profileMm = points.map(
      (_, i) => [lengthMmAt(part, "profile", i, 0), lengthMmAt(part, "profile", i, 1)] as const,
    );
    const isWhole = profileMm.every((point) => point.every((lengthMm) => lengthMm !== undefined));
    return isWhole ? (profileMm as unknown as ProfileMm) : undefined;
  }

  return { lengthMmAt, profileMmAt };
}
