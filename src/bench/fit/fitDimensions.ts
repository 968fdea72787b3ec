/** The five dimensions that decide where a shank seats. */

export const shankDimensions = ["shankEndDiameterMm", "shankTaper"] as const;
export const receiverDimensions = ["mouthDiameterMm", "receiverTaper", "depthMm"] as const;
export const fitDimensions = [...shankDimensions, ...receiverDimensions] as const;

export type ShankDimension = (typeof shankDimensions)[number];
export type ReceiverDimension = (typeof receiverDimensions)[number];
export type FitDimension = (typeof fitDimensions)[number];

/** Lengths in mm; a taper is change of diameter per length. */
export type FitDimensions = Readonly<Record<FitDimension, number>>;
/** Standard uncertainties, in the unit of the dimension. One left out counts for nothing. */
export type FitUncertainties = Readonly<Partial<Record<FitDimension, number>>>;

/** What a column of a table of parts, and a refusal, call a dimension. */
export const dimensionName: Readonly<Record<FitDimension, string>> = {
  shankEndDiameterMm: "shank end diameter",
  shankTaper: "shank taper",
  mouthDiameterMm: "receiver mouth diameter",
  receiverTaper: "receiver taper",
  depthMm: "receiver depth",
};

/** Whether a dimension is a taper, and so has no unit. */
export const isTaper = (dimension: FitDimension): boolean =>
  dimension === "shankTaper" || dimension === "receiverTaper";

/** A taper below a micrometre in a metre is a cylinder. */
export const smallestTaper = 1e-6;
