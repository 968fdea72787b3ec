/**
 * |Z| and phase against frequency at one gap. Many frequencies are read off the air column's interpolant, whose error is
 * checked against the line itself; few are computed straight from the line.
 */
import { AirColumn } from "../../acoustics/airColumn.ts";
import type { Breath } from "../../acoustics/duct/breath.ts";
import { Line } from "../../acoustics/duct/line.ts";
import { settledBell } from "../../acoustics/duct/settledBell.ts";
import { STATE } from "../../acoustics/duct/twoPort.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";

export interface ImpedanceCurve {
  /** Hz */
  readonly frequencies: Float64Array;
  /** Pa·s/m³ */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Below this many frequencies interpolation costs more than it saves. */
const FEW = 100;
const CHECKS = 7;
/** 0.01 dB as a ratio. */
const CHECKED = 10 ** (0.01 / 20) - 1;

/**
 * Z at the rim, by interpolation where that is checked to be good to 0.01 dB, else straight from the line.
 * @param frequencies Hz, above zero; interpolation needs them rising
 * @param breath the stream through it; still air without
 */
export function impedanceCurve(
  asked: Setup,
  frequencies: Float64Array,
  gapMm = ownGapMm(asked),
  breath: Breath | null = null,
): ImpedanceCurve {
  const highestHz = frequencies.reduce((most, hz) => Math.max(most, hz), 0);
  const setup = settledBell(asked, highestHz);
  withGap(setup, gapMm);
  const line = new Line(setup, breath, null, highestHz);
  const gap = line.gap(gapMm / 1000);
  const state = new Float64Array(STATE);
  const exact = (f: number): [re: number, im: number] => {
    line.rimState(gap, 0, 2 * Math.PI * f, 0, state);
    const [pRe, pIm, uRe, uIm] = state;
    const size = uRe * uRe + uIm * uIm;
    return [(pRe * uRe + pIm * uIm) / size, (pIm * uRe - pRe * uIm) / size];
  };
  const count = frequencies.length;
  if (count > FEW && frequencies.every((f, i) => i === 0 || f > frequencies[i - 1])) {
    const column = new AirColumn(setup, frequencies[0], frequencies[count - 1], line);
    const curve = column.curve(column.grid(frequencies), gap);
    const worst = Math.max(
      ...Array.from({ length: CHECKS }, (_, k) => {
        const i = Math.floor(((k + 0.5) * count) / CHECKS);
        const [re, im] = exact(frequencies[i]);
        return Math.hypot(curve.re[i] - re, curve.im[i] - im) / Math.hypot(re, im);
      }),
    );
    if (worst < CHECKED) return { frequencies, ...curve };
  }
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  frequencies.forEach((f, i) => {
    [re[i], im[i]] = exact(f);
  });
  return { frequencies, re, im };
}
