/** Several mouthpieces in several instruments: every gap, how far it is from the preferred one, and what makes them differ. */
import { InputError } from "../../units/inputError.ts";
import type { LengthUnit } from "../../units/length.ts";
import { type Fit, fitOf, preferredFlaw } from "./fit.ts";
import {
  type FitDimension,
  type FitDimensions,
  receiverDimensions,
  shankDimensions,
} from "./fitDimensions.ts";
import { type FitSpread, fitSpread, type SpreadSample } from "./fitSpread.ts";
import { type InstrumentPart, type MouthpiecePart, missingDimensions } from "./part.ts";

export interface FitMatrixOptions {
  /** The gap that the player prefers, mm. */
  readonly preferredMm?: number;
  /** Clearance of the diameters up to which two walls count as touching, mm. */
  readonly clearanceMm?: number;
  /** What a refusal speaks in; mm where left out. */
  readonly unit?: LengthUnit;
}

export interface FitCell {
  readonly mouthpiece: string;
  readonly instrument: string;
  /** Undefined as long as a dimension is missing. */
  readonly fit: Fit | undefined;
  readonly missing: readonly FitDimension[];
  /** Gap less preferred gap, mm; undefined without either. */
  readonly fromPreferredMm: number | undefined;
  /** Whether that is more than the gap's expanded uncertainty, 2u; undefined when one of them is. */
  readonly isApartFromPreferred: boolean | undefined;
}

export interface FitMatrix {
  readonly mouthpieces: readonly string[];
  readonly instruments: readonly string[];
  readonly preferredMm: number | undefined;
  /** `cells[mouthpiece][instrument]`, in the order given. */
  readonly cells: readonly (readonly FitCell[])[];
  /** For each mouthpiece, over the instruments. */
  readonly byMouthpiece: readonly FitSpread[];
  /** For each instrument, over the mouthpieces. */
  readonly byInstrument: readonly FitSpread[];
  readonly overall: FitSpread;
}

/** @throws {InputError} for a preferred gap that is no length of 0 or more. */
export function fitMatrix(
  mouthpieces: readonly MouthpiecePart[],
  instruments: readonly InstrumentPart[],
  options: FitMatrixOptions = {},
): FitMatrix {
  const { preferredMm } = options;
  const flaw = preferredMm === undefined ? undefined : preferredFlaw(preferredMm);
  if (flaw !== undefined) throw new InputError(flaw);

  const cells = mouthpieces.map((mouthpiece) =>
    instruments.map((instrument) => cell(mouthpiece, instrument, options)),
  );
  const pairs = mouthpieces.flatMap((mouthpiece, m) =>
    instruments.map((instrument, i) => ({ mouthpiece, instrument, cell: cells[m][i] })),
  );
  const spread = (of: string, among: FitSpread["among"], some: Pair[], varying?: readonly FitDimension[]) =>
    fitSpread(
      of,
      among,
      some.flatMap(sample),
      {
        onLeadpipe: some.filter(({ cell }) => cell.fit?.outcome === "on-leadpipe").length,
        leftOut: some.filter(({ cell }) => cell.fit?.gapMm === undefined).length,
      },
      varying,
    );
  return {
    mouthpieces: mouthpieces.map(({ name }) => name),
    instruments: instruments.map(({ name }) => name),
    preferredMm,
    cells,
    byMouthpiece: mouthpieces.map((one) => {
      const its = pairs.filter(({ mouthpiece }) => mouthpiece === one);
      return spread(one.name, "instruments", its, receiverDimensions);
    }),
    byInstrument: instruments.map((one) => {
      const its = pairs.filter(({ instrument }) => instrument === one);
      return spread(one.name, "mouthpieces", its, shankDimensions);
    }),
    overall: spread("all", "pairs", pairs),
  };
}

interface Pair {
  readonly mouthpiece: MouthpiecePart;
  readonly instrument: InstrumentPart;
  readonly cell: FitCell;
}

const sample = ({ mouthpiece, instrument, cell: { fit } }: Pair): SpreadSample[] =>
  fit?.outcome === "seated" ? [{ gapMm: fit.gapMm!, ...pairOf(mouthpiece, instrument) }] : [];

/** The five dimensions of a pair, with their uncertainties. Only whole when nothing is missing. */
const pairOf = (mouthpiece: MouthpiecePart, instrument: InstrumentPart) => ({
  dimensions: { ...mouthpiece.dimensions, ...instrument.dimensions } as FitDimensions,
  uncertainties: { ...mouthpiece.uncertainties, ...instrument.uncertainties },
});

function cell(
  mouthpiece: MouthpiecePart,
  instrument: InstrumentPart,
  { preferredMm, clearanceMm, unit = "mm" }: FitMatrixOptions,
): FitCell {
  const names = { mouthpiece: mouthpiece.name, instrument: instrument.name };
  const missing = missingDimensions(mouthpiece, instrument);
  if (missing.length > 0)
    return {
      ...names,
      fit: undefined,
      missing,
      fromPreferredMm: undefined,
      isApartFromPreferred: undefined,
    };
  const { dimensions, uncertainties } = pairOf(mouthpiece, instrument);
  const answer = fitOf(dimensions, {
    uncertainties,
    unit,
    ...(clearanceMm !== undefined && { clearanceMm }),
  });
  const { gapMm, standardUncertaintyMm } = answer;
  const fromPreferredMm = gapMm === undefined || preferredMm === undefined ? undefined : gapMm - preferredMm;
  const isApartFromPreferred =
    fromPreferredMm === undefined || standardUncertaintyMm === undefined
      ? undefined
      : Math.abs(fromPreferredMm) > 2 * standardUncertaintyMm;
  return {
    ...names,
    fit: answer,
    missing,
    fromPreferredMm,
    isApartFromPreferred,
  };
}
