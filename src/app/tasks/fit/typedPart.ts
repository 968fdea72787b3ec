/** A part as texts in a row of cells: which cells there are, what stands in them, and the texts of a part that has numbers. */
import { dimensionName, type FitDimension, isTaper } from "../../../bench/fit/fitDimensions.ts";
import { parseTaper } from "../../../bench/fit/taper.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { exactLengthText } from "../../form/setup/edits.ts";
import type { PartNotes } from "../../state/notes/fit.ts";
import type { AnyPart } from "./partTables.ts";

/** A cell of a row: the name, or a dimension, or its standard uncertainty. */
export interface PartCell {
  /** Unique in its row. */
  readonly key: string;
  readonly kind: "name" | "dimensions" | "uncertainties";
  /** Undefined for the name. */
  readonly dimension: FitDimension | undefined;
  /** What a person calls it. */
  readonly title: string;
}

export const cellsOf = (dimensions: readonly FitDimension[]): readonly PartCell[] => [
  { key: "name", kind: "name", dimension: undefined, title: "name" },
  ...dimensions.flatMap((dimension): PartCell[] => [
    { key: dimension, kind: "dimensions", dimension, title: dimensionName[dimension] },
    {
      key: `u ${dimension}`,
      kind: "uncertainties",
      dimension,
      title: `standard uncertainty of the ${dimensionName[dimension]}`,
    },
  ]),
];

export const isLengthDimension = (dimension: string): boolean => !isTaper(dimension as FitDimension);

export const textAt = (part: PartNotes, { kind, dimension }: PartCell): string =>
  kind === "name" ? part.name : (part[kind][dimension!] ?? "");

export const withText = (part: PartNotes, { kind, dimension }: PartCell, text: string): PartNotes =>
  kind === "name" ? { ...part, name: text } : { ...part, [kind]: { ...part[kind], [dimension!]: text } };

/** A row in which nothing is written is no part. */
export const isBlank = ({ name, dimensions, uncertainties }: PartNotes): boolean =>
  [name, ...Object.values(dimensions), ...Object.values(uncertainties)].every((text) => text.trim() === "");

/** The texts that read back as exactly this part. */
export function typedPart({ name, dimensions, uncertainties }: AnyPart, unit: LengthUnit): PartNotes {
  const texts = (values: AnyPart["dimensions"], taper: (value: number) => string) =>
    Object.fromEntries(
      Object.entries(values).map(([dimension, value]) => [
        dimension,
        isLengthDimension(dimension) ? exactLengthText(value, unit) : taper(value),
      ]),
    );
  return {
    name,
    dimensions: texts(dimensions, taperText),
    uncertainties: texts(uncertainties, String),
  };
}

/** A taper as it was most likely written: 1:20.047 where that is shorter than its decimals and the same number. */
function taperText(taper: number): string {
  const plain = `${taper}`;
  const ratio = `1:${Number((1 / taper).toPrecision(12))}`;
  return taper > 0 && ratio.length < plain.length && parseTaper(ratio) === taper ? ratio : plain;
}

/** A name that no other part has. */
export function freshName(wanted: string, parts: readonly PartNotes[]): string {
  const taken = new Set(parts.map(({ name }) => name.trim()));
  let name = wanted;
  for (let n = 2; taken.has(name); n++) name = `${wanted} ${n}`;
  return name;
}
