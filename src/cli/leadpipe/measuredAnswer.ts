/** What is made of a measured impedance: beside the model as the setup has it, and with a few unknowns fitted. */
import {
  type ColumnFit,
  columnFitSteps,
  columnFitWords,
  levelWords,
  type MeasuredImpedance,
  type Overlay,
  overlay,
  readingWords,
  type Setup,
  type UnknownName,
} from "../../index.ts";
import type { FormerKeys } from "../terminal/formerNames.ts";
import { watch } from "../terminal/progress.ts";

export interface MeasuredAnswer {
  readonly measured: MeasuredImpedance;
  readonly before: Overlay;
  readonly fit: ColumnFit | null;
  /** With the fitted setup. */
  readonly after: Overlay | null;
  /** A unit that was probably meant, and a bell that is worth trying, each with the option that says so. */
  readonly offers: { readonly level: string | null; readonly bell: string | null };
}

/** @param unknowns those that are fitted; none: nothing is */
export function measuredAnswer(
  setup: Setup,
  measured: MeasuredImpedance,
  unknowns: readonly UnknownName[],
  { noise, steps }: { readonly noise?: number; readonly steps: number },
): MeasuredAnswer {
  const before = overlay(setup, measured);
  if (unknowns.length === 0)
    return { measured, before, fit: null, after: null, offers: offersOf(measured, before) };
  const fit = watch(
    columnFitSteps(setup, measured, unknowns, noise, steps),
    ({ iteration, scatterDb }) => `step ${iteration}: ${scatterDb.toFixed(3)} dB left over`,
  );
  return {
    measured,
    before,
    fit,
    after: overlay(fit.setup, measured),
    offers: offersOf(measured, before, fit),
  };
}

function offersOf(
  measured: MeasuredImpedance,
  before: Overlay,
  fit: ColumnFit | null = null,
): MeasuredAnswer["offers"] {
  const level = levelWords(before, measured.reading);
  const { scale, unit } = before.level.guess?.read ?? {};
  const asked = scale === "absolute" ? `--unit ${Number(unit!.toPrecision(6))}` : `--scale ${scale}`;
  const isCurved = fit?.curved && fit.curved.told !== "plane";
  return {
    level: level && `${level} To read it so, add: ${asked}`,
    bell: isCurved ? "To fit with curved fronts in the bell, add: --bell multimodal" : null,
  };
}

export const FORMER_KEYS: FormerKeys = {
  residual_rms_dB: "scatter_dB",
  residual_rms_degrees: "scatter_degrees",
  start_residual_rms_dB: "start_dB",
  lag_1_autocorrelation: "neighbour_correlation",
  autocorrelation_score: "running_together",
};

/** Names with units, as JSON. */
export const measuredJson = ({ measured, before, fit, after, offers }: MeasuredAnswer) => ({
  reading: { ...measured.reading, header: measured.hasHeader, frequencies: measured.frequencies.length },
  understood: readingWords(measured),
  gap_mm: before.gapMm,
  rms_dB: before.rmsDb,
  rms_degrees: before.rmsDegrees,
  level_dB: before.level.offsetDb,
  offers: [offers.level, offers.bell].filter((words) => words !== null),
  peaks: before.peaks.map((peak) => ({
    n: peak.n,
    model_Hz: peak.model.frequencyHz,
    measured_Hz: peak.measured?.frequencyHz ?? null,
    difference_cents: peak.cents,
    height_dB: peak.heightDb,
    model_Q: peak.model.Q,
    measured_Q: peak.measured?.Q ?? null,
    ...(after && {
      fitted_difference_cents: after.peaks.find(({ n }) => n === peak.n)?.cents ?? null,
      fitted_height_dB: after.peaks.find(({ n }) => n === peak.n)?.heightDb ?? null,
    }),
  })),
  fit: fit && {
    estimates: fit.estimates.map(({ unknown, value, standard, interval, atBound, smoothMoves, held }) => ({
      unknown: unknown.key,
      unit: unknown.unit,
      start: unknown.start,
      value,
      standard_uncertainty: standard,
      low_95: interval?.[0] ?? null,
      high_95: interval?.[1] ?? null,
      at_bound: atBound,
      hidden_error_moves: smoothMoves,
      held: held.map((one) => ({
        path: one.path,
        unit: one.unit,
        standard_uncertainty: one.standard,
        moves: one.moves,
      })),
    })),
    correlation: fit.correlation,
    residual_rms_dB: fit.scatterDb,
    residual_rms_degrees: fit.scatterDegrees,
    start_residual_rms_dB: fit.startDb,
    lag_1_autocorrelation: fit.lag1Autocorrelation,
    noise_dB: fit.residual.noiseDb,
    noise_stated: fit.residual.isStated,
    reduced_chi_square: fit.residual.chiSquare,
    autocorrelation_score: fit.residual.autocorrelationScore,
    judgement: fit.judgement,
    degrees_of_freedom: fit.degreesOfFreedom,
    converged: fit.converged,
    curved_fronts: fit.curved && {
      told: fit.curved.told,
      scatter_dB: fit.curved.scatterDb,
      moves: fit.curved.moves,
    },
    words: columnFitWords(fit),
  },
});
