/** Synthetic measurements: the model itself at a known truth, with noise of a stated size. */
import { gapMm, type Setup } from "../../../src/setup/setup.ts";
import { type Measured, modelCurve } from "../../../src/study/measured/measured.ts";
import type { ImpedanceScale, Reading } from "../../../src/study/measured/measuredReading.ts";
import { withNoise } from "../../../src/study/measured/syntheticMeasurement.ts";

export interface Synthetic {
  readonly from?: number;
  readonly to?: number;
  readonly step?: number;
  /** Relative, of each of the two parts. */
  readonly noise?: number;
  /** Correlation of the noise at neighbouring frequencies. */
  readonly lag1Autocorrelation?: number;
  readonly seed?: number;
  readonly scale?: ImpedanceScale;
  /** What it is multiplied by. */
  readonly factor?: number;
  /** Without a phase where it is the magnitude. */
  readonly form?: Reading["form"];
}

export function synthetic(truth: Setup, options: Synthetic = {}): Measured {
  const {
    from = 80,
    to = 900,
    step = 2,
    noise = 0,
    lag1Autocorrelation = 0,
    seed = 1,
    scale = "absolute",
    factor = 1,
    form = "real-imaginary",
  } = options;
  const frequencies = Float64Array.from(
    { length: Math.floor((to - from) / step) + 1 },
    (_, i) => from + step * i,
  );
  const { re, im } = withNoise(modelCurve(truth, frequencies, gapMm(truth)), {
    size: noise,
    lag1Autocorrelation,
    seed,
  });
  const times = (x: number) => factor * x;
  if (form === "magnitude")
    return {
      frequencies,
      re: re.map((x, i) => factor * Math.hypot(x, im[i])),
      im: im.map(() => 0),
      reading: { scale, form },
    };
  return { frequencies, re: re.map(times), im: im.map(times), reading: { scale, form } };
}
