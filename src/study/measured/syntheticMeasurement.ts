/**
 * A measurement that nobody has made, to try the comparison with: the model's own impedance of an instrument that is a little
 * different from what its setup says, with noise of a stated size, always the same one.
 */
import { randomLcg, randomNormal } from "d3";
import type { Curve } from "../../acoustics/airColumn.ts";
import { gapMm, type Setup } from "../../setup/setup.ts";
import { unknownOf } from "./columnUnknowns.ts";
import { modelCurve } from "./measured.ts";

export interface Noise {
  /** Standard deviation of each of the two parts, of the size of Z. */
  readonly size: number;
  /** Correlation at neighbouring frequencies. */
  readonly lag1Autocorrelation?: number;
  /** A whole number; the same one makes the same noise. */
  readonly seed: number;
}

/** Z with noise. */
export function withNoise({ re, im }: Curve, { size, lag1Autocorrelation = 0, seed }: Noise): Curve {
  const normal = randomNormal.source(randomLcg(seed / 4099))(0, size);
  let [a, b] = [normal(), normal()];
  const fresh = Math.sqrt(1 - lag1Autocorrelation * lag1Autocorrelation);
  const noisy = { re: new Float64Array(re.length), im: new Float64Array(re.length) };
  re.forEach((x, i) => {
    [a, b] = [lag1Autocorrelation * a + fresh * normal(), lag1Autocorrelation * b + fresh * normal()];
    noisy.re[i] = x * (1 + a) - im[i] * b;
    noisy.im[i] = x * b + im[i] * (1 + a);
  });
  return noisy;
}

const NOISE = { size: 0.01, seed: 7 };
/** What the synthetic instrument has that its setup does not say, mm and without unit. */
const WIDER_GAP_MM = 0.6;
const ROUGHER = 1.1;
const RANGE_HZ = { from: 60, to: 900, step: 1 };

/** As the file of a measuring program: magnitude and phase, with a head that says what it is. */
export function syntheticMeasurement(setup: Setup): string {
  const gap = unknownOf(setup, "gap");
  const loss = unknownOf(setup, "wall-loss");
  const widened = gap.set(setup, Math.min(gap.high, gap.start + WIDER_GAP_MM));
  const truth = loss.set(widened, Math.min(loss.high, loss.start * ROUGHER));
  const { from, to, step } = RANGE_HZ;
  const frequencies = Float64Array.from({ length: (to - from) / step + 1 }, (_, i) => from + step * i);
  const { re, im } = withNoise(modelCurve(truth, frequencies, gapMm(truth)), NOISE);
  const rows = Array.from(frequencies, (f, i) => {
    const megapascals = Math.hypot(re[i], im[i]) / 1e6;
    const degrees = (180 / Math.PI) * Math.atan2(im[i], re[i]);
    return `${f},${megapascals.toPrecision(5)},${degrees.toFixed(2)}`;
  });
  return [
    `# Invented, nobody has measured it: the model itself with a gap of ${gapMm(truth).toFixed(2)} mm and a wall-loss factor of`,
    `# ${truth.model.wallLossFactor.toFixed(2)}, and noise of ${100 * NOISE.size} % (seed ${NOISE.seed}).`,
    "frequency (Hz),|Z| (MPa s/m3),phase (deg)",
    ...rows,
    "",
  ].join("\n");
}
