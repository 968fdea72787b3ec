/** What the file's JSON Schema allows for a number. */
import setupSchema from "../../../../shared/annulus-setup.schema.json" with { type: "json" };
import { WIDEST_UNCERTAINTY } from "../../../setup/dimension/dimension.ts";
import type { Limits } from "../quantity.ts";
import { keysOf } from "./paths.ts";

interface Part {
  readonly $ref?: string;
  readonly properties?: Readonly<Record<string, Part>>;
  readonly minimum?: number;
  readonly maximum?: number;
}

// TypeScript's own type of the file is a union too narrow to walk
const definitions = setupSchema.$defs as Readonly<Record<string, Part>>;
const properties = setupSchema.properties as Readonly<Record<string, Part>>;
/** `air` has two shapes in the schema, without a key in common. */
const air: Part = {
  properties: { ...definitions.airConditions.properties, ...definitions.airConstants.properties },
};

/** @param path of a number that is no length, as `air.humidity` */
export function limitsAt(path: string): Limits {
  if (keysOf(path)[0] === "uncertainties")
    return { least: 0, most: WIDEST_UNCERTAINTY[keysOf(path)[1] === "air.temperature" ? "°C" : ""] };
  let part: Part = { properties: { ...properties, air } };
  for (const key of keysOf(path)) {
    part = part.properties?.[key] ?? {};
    if (part.$ref) part = definitions[part.$ref.split("/").at(-1)!];
  }
  return { least: part.minimum ?? -Infinity, most: part.maximum ?? Infinity };
}
