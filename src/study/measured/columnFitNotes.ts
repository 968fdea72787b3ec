/** Whether a fit is to be trusted, and what must be known of it first. */
import { coverageFactor } from "../../bench/measure/coverage.ts";
import type { ColumnFit, Estimate, FitNote, Judgement } from "./columnFitResult.ts";
import { NO_CHANCE } from "./residualNoise.ts";

/** Correlation from which two unknowns count as one. */
const INSEPARABLE = 0.98;
/** ρ from which what the model leaves over is no noise. */
const SYSTEMATIC = 0.5;
/** Reduced chi-square from which it is more than noise: own choice; by chance alone a few hundred frequencies stay below 1.3. */
const TOO_MUCH = 2;
/** What no measurement can show, dB. */
const NOTHING_DB = 0.01;

/** Of an unknown's step, a change that counts, what the price of held dimensions is named from; how many of them are named. */
const PRICE = 0.25;
const NAMED = 3;

/** What is known of a fit before it is judged. */
type Found = Omit<ColumnFit, "notes" | "judgement">;

/** What of its residual speaks against a fit, or would not be seen to; null where nothing that counts does. */
function residualNote({ estimates, lag1Autocorrelation, residual, scatterDb }: Found): FitNote | null {
  const runsTogether = lag1Autocorrelation > SYSTEMATIC;
  const isAbove = residual.chiSquare > TOO_MUCH;
  if (scatterDb < NOTHING_DB) return null;
  if (isAbove && residual.isStated) return { kind: "above-noise", runsTogether };
  const moved = estimates.flatMap((estimate, i) => (couldBeMoved(estimate) ? [i] : []));
  // an error that could move no unknown by as much as counts is none
  if (moved.length === 0) return null;
  if (isAbove) return { kind: "above-noise", runsTogether };
  if (runsTogether) return { kind: "runs-together" };
  if (residual.autocorrelationScore > NO_CHANCE) return { kind: "doubtful" };
  return { kind: "noise-hides", estimates: moved };
}

/** Whether what a fit leaves over is noise, perhaps more, or a sign of a wrong model. */
export function judge(fit: Found): Judgement {
  const kind = residualNote(fit)?.kind;
  if (kind === "above-noise" || kind === "runs-together" || fit.curved?.told === "curved") return "wrong";
  return kind === "doubtful" ? "doubtful" : "sound";
}

/** Whether an error of the model that is there, or that the noise would hide, may count. */
const couldBeMoved = ({ smoothMoves, unknown }: Estimate): boolean =>
  smoothMoves === null || smoothMoves > unknown.step;

/**
 * What is to be known about a fit before its numbers are used. More noise never takes a note away: what is no longer seen under it is
 * said to be hidden, and prices are named by what they are, not by what part of an interval they make.
 */
export function fitNotes(fit: Found): FitNote[] {
  const { estimates, correlation, converged, setup, curved, scatterDegrees } = fit;
  const notes: FitNote[] = [];
  if (!converged) notes.push({ kind: "not-converged" });
  if (correlation === null) notes.push({ kind: "none-told-apart" });
  correlation?.forEach((row, i) => {
    row.slice(0, i).forEach((value, k) => {
      if (Math.abs(value) >= INSEPARABLE)
        notes.push({ kind: "inseparable", estimates: [k, i], correlation: value });
    });
  });
  estimates.forEach(({ unknown, atBound, standard, held }, i) => {
    if (atBound) notes.push({ kind: "at-bound", estimate: i });
    else if (standard === null && correlation !== null && converged)
      notes.push({ kind: "cannot-tell", estimate: i });
    const price = coverageFactor(Infinity) * Math.hypot(...held.map(({ moves }) => moves));
    if (price > PRICE * unknown.step)
      notes.push({ kind: "rests-on-held", estimate: i, held: held.slice(0, NAMED) });
  });
  const ofResidual = residualNote(fit);
  if (ofResidual && ofResidual.kind !== "noise-hides") notes.push(ofResidual);
  if (setup.model.bell === "plane") notes.push({ kind: "plane-bell", curved });
  if (scatterDegrees === null) notes.push({ kind: "no-phase" });
  if (ofResidual?.kind === "noise-hides") notes.push(ofResidual);
  if (estimates.some(({ unknown }) => unknown.key === "temperature"))
    notes.push({ kind: "effective-temperature" });
  return notes;
}
