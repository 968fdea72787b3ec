/** The model's error of the gap, from the checks of “How far to trust this”. */
import { theGap } from "../how-far-to-trust-this/theGap.ts";
import type { ErrorSeries } from "./drawings.ts";

const names = ["straight cavities", "other shapes, taper up to 0.05", "steep, or no wider than the leadpipe"];

/** Deviations by gap, closed gaps apart. */
export const errors = (): ErrorSeries[] =>
  names.map((name, i) => {
    const samples = theGap[i].samples();
    return { name, samples, gapsMm: samples.map(({ of }) => Number.parseFloat(of.replace("gap ", ""))) };
  });
