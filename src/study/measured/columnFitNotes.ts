/** Whether a fit is to be trusted, and what must be known of it first. */
import type { ColumnFit, FitNote, Judgement } from "./columnFitResult.ts";

/** Correlation from which two unknowns count as one. */
const INSEPARABLE = 0.98;
/** ρ from which what the model leaves over is no noise. */
const SYSTEMATIC = 0.5;
/** Reduced chi-square from which it is more than noise: own choice; by chance alone a few hundred frequencies stay below 1.3. */
const TOO_MUCH = 2;
/** What no measurement can show, dB. */
const NOTHING_DB = 0.01;

/** Standard deviations from which running together is no chance: at 4, one fit of the right model in ten thousand. */
const NO_CHANCE = 4;

/** Part of a variance from which it is said what it comes from, and how many of its causes are named. */
const MOSTLY = 0.5;
const NAMED = 3;

/** Whether what a fit leaves over is noise, perhaps more, or a sign of a wrong model. */
export function judge({
  lag1Autocorrelation,
  residual,
  scatterDb,
}: Omit<ColumnFit, "notes" | "judgement">): Judgement {
  if (scatterDb < NOTHING_DB) return "sound";
  if (lag1Autocorrelation > SYSTEMATIC || residual.chiSquare > TOO_MUCH) return "wrong";
  return residual.autocorrelationScore > NO_CHANCE ? "doubtful" : "sound";
}

/** What is to be known about a fit before its numbers are used. */
export function fitNotes(fit: Omit<ColumnFit, "notes">): FitNote[] {
  const { estimates, correlation, lag1Autocorrelation, converged, residual, judgement, setup } = fit;
  const notes: FitNote[] = [];
  if (!converged) notes.push({ kind: "not-settled" });
  if (correlation === null) notes.push({ kind: "none-told-apart" });
  correlation?.forEach((row, i) => {
    row.slice(0, i).forEach((value, k) => {
      if (Math.abs(value) >= INSEPARABLE)
        notes.push({ kind: "inseparable", estimates: [k, i], correlation: value });
    });
  });
  estimates.forEach(({ atBound, standard, held }, i) => {
    if (atBound) notes.push({ kind: "at-bound", estimate: i });
    else if (standard === null && correlation !== null) notes.push({ kind: "cannot-tell", estimate: i });
    const square = held.reduce((sum, { moves }) => sum + moves * moves, 0);
    if (standard === null ? square > 0 : square > MOSTLY * standard * standard)
      notes.push({ kind: "rests-on-held", estimate: i, held: held.slice(0, NAMED) });
  });
  if (judgement === "wrong" && residual.chiSquare > TOO_MUCH) notes.push({ kind: "above-noise" });
  if (judgement === "wrong" && lag1Autocorrelation > SYSTEMATIC) notes.push({ kind: "runs-together" });
  if (judgement === "doubtful") notes.push({ kind: "doubtful" });
  if (setup.model.bell === "plane") notes.push({ kind: "plane-bell" });
  if (estimates.some(({ unknown }) => unknown.key === "temperature"))
    notes.push({ kind: "effective-temperature" });
  return notes;
}
