/**
 * The dimensions of a setup that somebody measured and that may so be a little off: what the file calls them, and the
 * setup with one of them moved. `leadpipe.diameters` is an error common to all diameters of a part, as a gauge makes it;
 * `leadpipe.profile[3][1]` that of one alone.
 */
import { profileLengthMm } from "../geometry.ts";
import type { AirConditions, ProfileMm, Setup } from "../setup.ts";

export type DimensionUnit = "mm" | "°C" | "";

export interface Dimension {
  readonly path: string;
  /** What a person calls it. */
  readonly name: string;
  readonly unit: DimensionUnit;
  readonly value: number;
  /** The setup with this dimension `by` larger, in its unit. Not checked: a large step may leave no instrument. */
  readonly moved: (by: number) => Setup;
}

const PARTS = ["mouthpiece", "leadpipe", "body"] as const;
type Part = (typeof PARTS)[number];

/** Places that a setup's uncertainties may name, the points of profiles besides. */
export const NAMED_DIMENSIONS = [
  "receiver.depth",
  "mouthpiece.insertion",
  "receiver.mouthDiameter",
  "receiver.taper",
  "mouthpiece.shankEndDiameter",
  "mouthpiece.shankTaper",
  "mouthpiece.diameters",
  "leadpipe.diameters",
  "body.diameters",
  "air.temperature",
  "air.humidity",
  "model.wallLossFactor",
] as const;

/** The dimension that a path names; undefined where this setup has none there. */
export function dimensionAt(setup: Setup, path: string): Dimension | undefined {
  const { mouthpiece, receiver, air, model } = setup;
  const dimension = (
    name: string,
    unit: DimensionUnit,
    value: number | undefined,
    moved: (value: number) => Setup,
  ): Dimension | undefined =>
    value === undefined ? undefined : { path, name, unit, value, moved: (by) => moved(value + by) };
  switch (path) {
    case "receiver.depth":
      return dimension("receiver depth", "mm", receiver.depthMm, (depthMm) => ({
        ...setup,
        receiver: { ...receiver, depthMm },
      }));
    case "receiver.mouthDiameter":
      return dimension("receiver mouth diameter", "mm", receiver.mouthDiameterMm, (mouthDiameterMm) => ({
        ...setup,
        receiver: { ...receiver, mouthDiameterMm },
      }));
    case "receiver.taper":
      return dimension("receiver taper", "", receiver.taper, (taper) => ({
        ...setup,
        receiver: { ...receiver, taper },
      }));
    case "mouthpiece.insertion":
      return dimension("insertion", "mm", mouthpiece.insertionMm, (insertionMm) => ({
        ...setup,
        mouthpiece: { ...mouthpiece, insertionMm },
      }));
    case "mouthpiece.shankEndDiameter":
      return dimension("shank end diameter", "mm", mouthpiece.shankEndDiameterMm, (shankEndDiameterMm) => ({
        ...setup,
        mouthpiece: { ...mouthpiece, shankEndDiameterMm },
      }));
    case "mouthpiece.shankTaper":
      return dimension("shank taper", "", mouthpiece.shankTaper, (shankTaper) => ({
        ...setup,
        mouthpiece: { ...mouthpiece, shankTaper },
      }));
    case "air.temperature":
      return ofAir("room temperature", "°C", "temperatureC");
    case "air.humidity":
      return ofAir("humidity", "", "humidity");
    case "model.wallLossFactor":
      return dimension("wall-loss factor", "", model.wallLossFactor, (wallLossFactor) => ({
        ...setup,
        model: { ...model, wallLossFactor },
      }));
    default:
      return ofProfile();
  }

  function ofAir(name: string, unit: DimensionUnit, key: "temperatureC" | "humidity") {
    if (air.kind !== "conditions") return undefined;
    return dimension(name, unit, air[key], (value) => ({
      ...setup,
      air: { ...air, [key]: value } satisfies AirConditions,
    }));
  }

  function ofProfile(): Dimension | undefined {
    const [, part, row, column] =
      /^(mouthpiece|leadpipe|body)\.(?:diameters|profile\[(\d+)\]\[([01])\])$/.exec(path) ?? [];
    if (part === undefined) return undefined;
    const profileMm = setup[part as Part].profileMm;
    const withProfile = (changed: ProfileMm): Setup => ({
      ...setup,
      [part]: { ...setup[part as Part], profileMm: changed },
    });
    if (row === undefined)
      return {
        path,
        name: `${part} diameters`,
        unit: "mm",
        value: Math.min(...profileMm.map(([, diameterMm]) => diameterMm)),
        moved: (by) =>
          withProfile(profileMm.map(([positionMm, diameterMm]) => [positionMm, diameterMm + by])),
      };
    const at = Number(row);
    const what = column === "0" ? "position" : "diameter";
    return dimension(
      `${part}, row ${at + 1}, ${what}`,
      "mm",
      profileMm[at]?.[Number(column) as 0 | 1],
      (value) =>
        withProfile(
          profileMm.map((point, i) =>
            i !== at ? point : column === "0" ? ([value, point[1]] as const) : ([point[0], value] as const),
          ),
        ),
    );
  }
}

/** The largest standard uncertainty of what is no length, in its unit. */
export const WIDEST_UNCERTAINTY = { "°C": 20, "": 0.5 } as const;

/** The largest standard uncertainty that still says something of a dimension, in its unit. */
export function widestUncertainty(setup: Setup, { path, unit, value }: Dimension): number {
  if (unit !== "mm") return WIDEST_UNCERTAINTY[unit];
  const position = /^(\w+)\.profile\[\d+\]\[0\]$/.exec(path);
  return position ? profileLengthMm(setup[position[1] as Part].profileMm) : value / 2;
}
