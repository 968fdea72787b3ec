/** How the columns of a measured impedance were understood. */
import type { MeasuredImpedance } from "../../study/measured/measuredCsv.ts";

const UNIT_NAMES = new Map([
  [1, "Pa·s/m³"],
  [1e3, "kPa·s/m³"],
  [1e5, "CGS acoustic ohms (1e5 Pa·s/m³)"],
  [1e6, "MPa·s/m³"],
  [1e9, "GPa·s/m³"],
]);

/** Pa·s/m³ or a multiple of it, as a person calls it. */
export const unitName = (unit: number): string =>
  UNIT_NAMES.get(unit) ?? `${Number(unit.toPrecision(4))} Pa·s/m³`;

/** What was understood, in a sentence. */
export function readingWords({ reading, hasHeader, frequencies }: MeasuredImpedance): string {
  const { form, magnitude, phase, scale, decimal, delimiter, hertz, unit } = reading;
  const columns = {
    "real-imaginary": "real and imaginary part",
    "magnitude-phase": `magnitude (${magnitude}) and phase (${phase})`,
    magnitude: `magnitude (${magnitude}) without a phase`,
  }[form];
  const scales = {
    absolute: `in ${unitName(unit)}`,
    characteristic: "relative to the characteristic impedance at the rim",
    relative: "in an unknown unit, so that heights are compared among themselves",
  };
  const last = frequencies[frequencies.length - 1];
  return (
    `${frequencies.length} frequencies from ${frequencies[0]} to ${last} Hz${hertz === 1 ? "" : ` (given in ${hertz} Hz)`}; ${columns}, ` +
    `${scales[scale]}; ${delimiter} between the columns, decimal ${decimal}, ${hasHeader ? "with" : "no"} header.`
  );
}
