/** The gap that is mounted while a take is made: as typed, else the instrument's own. */
import { gapLimits } from "../../../setup/gapLimits.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { GAP_KIND, gapKind } from "../../../words/gapKinds.ts";
import { measuredGap } from "../../state/bench/jobGaps.ts";
import type { Document, Unit } from "../../state/state.ts";
import { type Field, readField } from "../field.ts";

type Instrument = Pick<Document, "setup" | "notes">;

/** The gap that counts where none is typed, and what is said of that. */
export function yourGap(
  { setup, notes }: Instrument,
  unit: Unit,
): { readonly gapMm: number; readonly hint: string } {
  const { gapMm, readings } = measuredGap({ setup, notes }, unit);
  const kind = readings ? GAP_KIND.measured : GAP_KIND[gapKind(setup, gapMm)];
  return { gapMm, hint: `Empty: your gap, ${formatLength(gapMm, unit)} (${kind}).` };
}

/** Null while it is not given or cannot be read, with the reason. @param otherwise where nothing is typed */
export function mountedGap(
  field: Field<number>,
  text: string,
  { setup }: Instrument,
  unit: Unit,
  otherwise: number | null,
): { readonly gapMm: number | null; readonly problem: string } {
  const { value, problem } = readField(field, text, unit);
  if (problem) return { gapMm: null, problem };
  const gapMm = value ?? otherwise;
  const { mostMm } = gapLimits(setup);
  return gapMm === null || gapMm <= mostMm
    ? { gapMm, problem: "" }
    : { gapMm: null, problem: `This receiver takes gaps up to ${formatLength(mostMm, unit)}.` };
}
