/**
 * Where the numbers of a setup come from: measured on this instrument, read from a drawing or file about it, or assumed,
 * because they came with a stand-in. A part's mark covers all of it but for dimensions that have their own.
 */
import { deepFreeze } from "../deepFreeze.ts";
import type { Provenance, Setup } from "../setup.ts";

/** The parts of a setup that may be marked whole, and the dimensions of each that may be marked by themselves. */
export const PROVENANCE_DIMENSIONS = {
  mouthpiece: [
    "mouthpiece.profile",
    "mouthpiece.insertion",
    "mouthpiece.cupDepth",
    "mouthpiece.shankEndDiameter",
    "mouthpiece.shankTaper",
  ],
  receiver: ["receiver.depth", "receiver.mouthDiameter", "receiver.taper"],
  leadpipe: ["leadpipe.profile"],
  body: ["body.profile", "body.slideAt"],
  air: ["air.temperature", "air.humidity"],
} as const;

export type ProvenancePart = keyof typeof PROVENANCE_DIMENSIONS;
export type ProvenanceDimension = (typeof PROVENANCE_DIMENSIONS)[ProvenancePart][number];

export const PROVENANCE_PARTS = Object.keys(PROVENANCE_DIMENSIONS) as readonly ProvenancePart[];

const partOf = (dimension: ProvenanceDimension): ProvenancePart =>
  dimension.slice(0, dimension.indexOf(".")) as ProvenancePart;

/** Where a mark for a dimension stands in the file: a leadpipe is its profile. */
const placeOf = (dimension: ProvenanceDimension): string =>
  dimension === "leadpipe.profile" ? "leadpipe" : dimension;

/** Whether a place in the file is a dimension that may be marked. */
export const isProvenanceDimension = (path: string): path is ProvenanceDimension =>
  Object.values(PROVENANCE_DIMENSIONS).some((dimensions) => (dimensions as readonly string[]).includes(path));

/** Whether the setup has the dimension at all. */
export function hasDimension({ mouthpiece, body, air }: Setup, dimension: ProvenanceDimension): boolean {
  switch (dimension) {
    case "mouthpiece.cupDepth":
      return mouthpiece.cupDepthMm !== undefined;
    case "mouthpiece.shankEndDiameter":
      return mouthpiece.shankEndDiameterMm !== undefined;
    case "mouthpiece.shankTaper":
      return mouthpiece.shankTaper !== undefined;
    case "body.slideAt":
      return body.slideAtMm !== undefined;
    case "air.temperature":
    case "air.humidity":
      return air.kind === "conditions";
    default:
      return true;
  }
}

/** Its own mark, or its part's; without one it is measured where somebody has said how well it is known, else from a file. */
export function provenanceOf(setup: Setup, dimension: ProvenanceDimension): Provenance {
  const { provenance, uncertainties } = setup;
  const marked = provenance[placeOf(dimension)] ?? provenance[partOf(dimension)];
  if (marked) return marked;
  const isOfProfile = dimension.endsWith(".profile");
  const isStated = Object.keys(uncertainties).some((path) =>
    isOfProfile
      ? path === `${partOf(dimension)}.diameters` || path.startsWith(`${dimension}[`)
      : path === dimension,
  );
  return isStated ? "measured" : "file";
}

const GAP: readonly ProvenanceDimension[] = ["receiver.depth", "mouthpiece.insertion"];

/** Of the setup's gap: assumed where either length is, measured where both are. */
export function gapProvenance(setup: Setup): Provenance {
  const from = GAP.map((dimension) => provenanceOf(setup, dimension));
  return (["assumed", "file"] as const).find((one) => from.includes(one)) ?? "measured";
}

/** The setup with these dimensions marked. */
export const withProvenance = (
  setup: Setup,
  provenance: Provenance,
  ...dimensions: readonly ProvenanceDimension[]
): Setup =>
  deepFreeze({
    ...setup,
    provenance: {
      ...setup.provenance,
      ...Object.fromEntries(dimensions.map((dimension) => [placeOf(dimension), provenance])),
    },
  });

/** Whether anything of it is assumed: then results are those of instruments like it. */
export const isAnyAssumed = (setup: Setup): boolean =>
  Object.values(PROVENANCE_DIMENSIONS)
    .flat()
    .some((dimension) => hasDimension(setup, dimension) && provenanceOf(setup, dimension) === "assumed");
