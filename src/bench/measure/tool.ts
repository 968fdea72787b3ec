/** A caliper or depth gauge: the step it shows, and what it shows when it should show nothing. */
import type { LengthUnit } from "../../units/length.ts";
import { ReadingError } from "./readings.ts";

export interface MeasuringTool {
  /** Smallest step the tool shows, mm. Left out, it counts for nothing. */
  readonly resolutionMm?: number;
  /** What the tool shows at zero, mm; subtracted from every reading. */
  readonly zeroMm?: number;
  /** Standard uncertainty of `zeroMm`, mm. */
  readonly zeroUncertaintyMm?: number;
}

const isLength = (lengthMm: number): boolean => lengthMm >= 0 && lengthMm < 1e6;

/**
 * The tool with nothing left open.
 *
 * @param what the length it measures, for messages: "depth".
 * @param unit of the messages
 * @throws {ReadingError} for a step or an uncertainty below 0, or a zero that is no length.
 */
export function checkedTool(
  tool: MeasuringTool,
  what: string,
  unit: LengthUnit = "mm",
): Required<MeasuringTool> {
  const example = (mm: string, inches: string) => (unit === "mm" ? `${mm} mm` : `${inches} in`);
  const { resolutionMm = 0, zeroMm = 0, zeroUncertaintyMm = 0 } = tool;
  if (!isLength(resolutionMm))
    throw new ReadingError(
      `the resolution of the ${what} is not a length of 0 ${unit} or more; give one such as ${example("0.01", "0.0005")}`,
    );
  if (!isLength(Math.abs(zeroMm)))
    throw new ReadingError(
      `the zero error of the ${what} is not a length; give what the tool shows at zero, such as ${example("0.02", "0.001")} or ${example("-0.02", "-0.001")}`,
    );
  if (!isLength(zeroUncertaintyMm))
    throw new ReadingError(
      `the zero uncertainty of the ${what} is not a length of 0 ${unit} or more; give one such as ${example("0.005", "0.0002")}`,
    );
  return { resolutionMm, zeroMm, zeroUncertaintyMm };
}

/** A reading is anywhere within one step of the tool: a rectangle, u = step/√12 (JCGM 100:2008, F.2.2.1). */
export const resolutionUncertaintyMm = (resolutionMm: number): number => resolutionMm / Math.sqrt(12);
