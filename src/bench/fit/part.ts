/** A mouthpiece or an instrument as far as it has been measured: what is missing is unknown, not 0. */
import {
  type FitDimension,
  type ReceiverDimension,
  receiverDimensions,
  type ShankDimension,
  shankDimensions,
} from "./fitDimensions.ts";

export interface Part<Dimension extends FitDimension> {
  readonly name: string;
  /** Lengths in mm; tapers as change of diameter per length. */
  readonly dimensions: Readonly<Partial<Record<Dimension, number>>>;
  /** Standard uncertainties, in the unit of the dimension. */
  readonly uncertainties: Readonly<Partial<Record<Dimension, number>>>;
}

export type MouthpiecePart = Part<ShankDimension>;
export type InstrumentPart = Part<ReceiverDimension>;

/** The dimensions that nobody has measured, of a mouthpiece and an instrument together. */
export const missingDimensions = (
  mouthpiece: MouthpiecePart,
  instrument: InstrumentPart,
): readonly FitDimension[] => [
  ...shankDimensions.filter((dimension) => mouthpiece.dimensions[dimension] === undefined),
  ...receiverDimensions.filter((dimension) => instrument.dimensions[dimension] === undefined),
];
