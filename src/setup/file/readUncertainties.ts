/** The standard uncertainties in a setup file: each must name a dimension that the setup has, and be smaller than it. */
import { dimensionAt, NAMED_DIMENSIONS, widestUncertainty } from "../dimension/dimension.ts";
import { type Problem, pathText, valueText } from "../problem.ts";
import type { Setup, Uncertainty } from "../setup.ts";
import { fileLengths, valueAt } from "./fileLengths.ts";

/**
 * How well each dimension is known, by its place in the file; what cannot be read is added to `problems`.
 * @param json a file that passed the schema
 * @param setup what it says but for its uncertainties
 */
export function readUncertainties(
  json: unknown,
  setup: Setup,
  problems: Problem[],
): Readonly<Record<string, Uncertainty>> {
  const { lengthMmAt } = fileLengths(json, problems);
  const uncertainties: Record<string, Uncertainty> = {};
  for (const path of Object.keys((valueAt(json, ["uncertainties"]) as object | undefined) ?? {})) {
    const own = ["uncertainties", path];
    const written = valueAt(json, own);
    const keys = typeof written === "object" ? [...own, "standard"] : own;
    const refuse = (at: readonly string[], message: string) =>
      problems.push({ path: pathText(at), value: valueAt(json, at), message });
    const dimension = dimensionAt(setup, path);
    if (!dimension) {
      refuse(
        own,
        `no dimension of this setup has that name; give one of ${NAMED_DIMENSIONS.filter((name) => dimensionAt(setup, name)).join(", ")}, or a point such as leadpipe.profile[0][1]`,
      );
      continue;
    }
    const given = valueAt(json, keys);
    const standard =
      dimension.unit === "mm" ? lengthMmAt(...keys) : typeof given === "number" ? given : undefined;
    const most = widestUncertainty(setup, dimension);
    if (standard === undefined) {
      if (dimension.unit !== "mm")
        refuse(keys, `${valueText(given)} is no number; give one in the unit of the ${dimension.name}`);
    } else if (!(standard >= 0 && standard <= most))
      refuse(
        keys,
        `${valueText(given)} is no standard uncertainty of the ${dimension.name}; give 0 to ${Number(most.toPrecision(4))}${dimension.unit && ` ${dimension.unit}`}`,
      );
    else
      uncertainties[path] = {
        standard,
        degreesOfFreedom: (valueAt(json, [...own, "degreesOfFreedom"]) as number | undefined) ?? Infinity,
      };
  }
  return uncertainties;
}
