/** |Z| of one variant over the frequencies that are shown, the slide where it brings a chosen resonance to a chosen pitch. */
import type { Setup } from "../../setup/setup.ts";
import { Instrument } from "../instrument/instrument.ts";
import { retuned } from "./compareRetune.ts";

export interface VariantCurve {
  /** Hz */
  readonly frequencies: Float64Array;
  /** Pa·s/m³ */
  readonly magnitude: Float64Array;
}

/** Evenly spaced in log f: two a pixel of a laptop's chart. */
const POINTS = 1600;
const SHOWN_HZ = [50, 1800] as const;

/** @param to the resonance that is brought to a frequency; null: as it is. @throws OutOfRange where it cannot be brought there */
export function variantCurve(
  setup: Setup,
  gapMm: number,
  to: { readonly n: number; readonly frequencyHz: number } | null,
): VariantCurve {
  const [low, high] = SHOWN_HZ;
  const frequencies = Float64Array.from(
    { length: POINTS },
    (_, i) => low * (high / low) ** (i / (POINTS - 1)),
  );
  const own = new Instrument(setup, { curveHz: SHOWN_HZ });
  const at = to && retuned(own, gapMm, to.n, to.frequencyHz);
  const instrument = at?.instrument ?? own;
  const { column } = instrument;
  const { re, im } = column.curve(column.grid(frequencies, (at?.drawMm ?? 0) / 1000), instrument.gap(gapMm));
  return { frequencies, magnitude: Float64Array.from(re, (x, i) => Math.hypot(x, im[i])) };
}
