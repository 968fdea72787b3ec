/** The two tables of the task: what stands in each and how it comes from a file and goes there. */
import demoInstruments from "../../../../shared/demo.bench.instruments.csv?raw";
import demoMouthpieces from "../../../../shared/demo.bench.mouthpieces.csv?raw";
import { type FitDimension, receiverDimensions, shankDimensions } from "../../../bench/fit/fitDimensions.ts";
import type { Part } from "../../../bench/fit/part.ts";
import {
  instrumentsCsv,
  mouthpiecesCsv,
  readInstruments,
  readMouthpieces,
} from "../../../bench/fit/partsCsv.ts";

export type PartKind = "mouthpieces" | "instruments";
export type AnyPart = Part<FitDimension>;

export interface PartTable {
  readonly kind: PartKind;
  readonly one: "mouthpiece" | "instrument";
  readonly dimensions: readonly FitDimension[];
  /** @throws {CsvError} */
  readonly read: (csv: string, source: string) => readonly AnyPart[];
  readonly csv: (parts: readonly AnyPart[]) => string;
  /** Invented parts. */
  readonly demoCsv: string;
}

export const partTables: Readonly<Record<PartKind, PartTable>> = {
  mouthpieces: {
    kind: "mouthpieces",
    one: "mouthpiece",
    dimensions: shankDimensions,
    read: readMouthpieces,
    csv: mouthpiecesCsv,
    demoCsv: demoMouthpieces,
  },
  instruments: {
    kind: "instruments",
    one: "instrument",
    dimensions: receiverDimensions,
    read: readInstruments,
    csv: instrumentsCsv,
    demoCsv: demoInstruments,
  },
};
