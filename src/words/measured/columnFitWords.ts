/** What a person must know of a fit before trusting it. */
import type { ColumnFit, Estimate, FitNote } from "../../study/measured/columnFitResult.ts";
import { signed } from "../numbers.ts";

/** A fit, or what a worker sends of it. */
export type FitInWords = Pick<ColumnFit, "notes" | "scatterDb" | "residual"> & {
  readonly estimates: readonly (Pick<Estimate, "value" | "standard" | "smoothMoves"> & {
    readonly unknown: Pick<Estimate["unknown"], "name" | "unit">;
  })[];
};

/** Of a standard uncertainty to the half of a 95 % interval. */
const TWICE = 1.96;
const figure = (value: number): string => `${Number(value.toPrecision(2))}`;

/** What is to be known about a fit before its numbers are used, a sentence each. */
export const columnFitWords = (fit: FitInWords): string[] => fit.notes.map((note) => noteWords(note, fit));

/** Part of a variance from which it is most of it. */
const MOSTLY = 0.5;

/** What curved fronts in the bell would change. */
function curvedWords(
  curved: Extract<FitNote, { kind: "plane-bell" }>["curved"],
  estimates: FitInWords["estimates"],
): string {
  const taken =
    "The unknowns take that up where they can, unseen in what is left over (a gap comes out 2 mm too wide).";
  if (!curved) return taken;
  const moves = estimates.map(
    ({ unknown: { name, unit } }, i) =>
      `${name} by about ${signed(curved.moves[i], decimals(curved.moves[i]))}${unit && ` ${unit}`}`,
  );
  const changed = `fitted with curved fronts, model.bell "multimodal", these move: ${moves.join(", ")}`;
  switch (curved.told) {
    case "curved":
      return `This measurement shows it: ${changed}; and some ${figure(curved.scatterDb)} dB would be left over. Fit with curved fronts.`;
    case "plane":
      return "This measurement fits plane waves better, as an invented one may.";
    case "neither":
      return `${taken} This measurement does not show which it is; ${changed}. Fit with curved fronts.`;
  }
}

/** So many that two figures are seen. */
const decimals = (value: number): number =>
  value === 0 ? 1 : Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(Math.abs(value)))));

function noteWords(note: FitNote, { estimates, scatterDb, residual }: FitInWords): string {
  const name = (i: number) => estimates[i].unknown.name;
  switch (note.kind) {
    case "not-converged":
      return "Not converged: the fit stopped at its last step, and its numbers are not where it was going. Start from dimensions closer to the instrument's.";
    case "none-told-apart":
      return `${estimates.map((_, i) => name(i)).join(", ")}: the measurement does not tell these apart at all; fit fewer of them.`;
    case "inseparable": {
      const [one, other] = note.estimates;
      return (
        `${name(one)} and ${name(other)} cannot be told apart here (correlation ${note.correlation.toFixed(3)}): only one combination of the ` +
        "two is known; measure one with a gauge and fit the other."
      );
    }
    case "at-bound": {
      const {
        value,
        unknown: { unit },
      } = estimates[note.estimate];
      return (
        `${name(note.estimate)} stands at the end of its range, ${Number(value.toPrecision(4))}${unit && ` ${unit}`}: its interval means nothing, and something ` +
        "else of the setup does not fit the measurement."
      );
    }
    case "cannot-tell":
      return `${name(note.estimate)}: this measurement cannot tell it. With what is known of the setup it could be nearly anything it can be.`;
    case "rests-on-held": {
      const { unknown, standard } = estimates[note.estimate];
      const { unit } = unknown;
      const square = note.held.reduce((sum, { moves }) => sum + moves * moves, 0);
      const part = standard === null || square > MOSTLY * standard * standard ? "most" : "part";
      const prices = note.held.map(
        (one) =>
          `${one.name}, ±${figure(TWICE * one.standard)}${one.unit && ` ${one.unit}`}, moves it by ±${figure(TWICE * one.moves)}${unit && ` ${unit}`}`,
      );
      return (
        `${name(note.estimate)}: ${part} of its interval comes from what the setup does not know for certain and the fit leaves as it is ` +
        `(95 %): ${prices.join("; ")}. Measure these, or fit them too.`
      );
    }
    case "above-noise":
      return (
        `Not to be trusted: what is left over, ${scatterDb.toPrecision(2)} dB, is ${figure(Math.sqrt(residual.chiSquare))} times the measurement's ` +
        `noise, ${residual.noiseDb.toPrecision(2)} dB ${residual.isStated ? "as stated" : "as it jumps from one frequency to the next"}. With these ` +
        "unknowns the model cannot be made to fit, and they may be off by far more than their intervals." +
        (note.runsTogether
          ? " It runs together over neighbouring frequencies, as an error of the model does."
          : "")
      );
    case "runs-together":
      return (
        "What is left over runs together over neighbouring frequencies: the model or the measurement is off in a way that none " +
        "of these unknowns can take up, and they may be off by more than their intervals."
      );
    case "doubtful":
      return (
        `Doubtful: what is left over runs together over neighbouring frequencies more than chance makes it (${residual.autocorrelationScore.toFixed(0)} standard ` +
        "deviations). Under the noise the model or the measurement is off in a way that none of these unknowns can take up, and they " +
        "may be off by more than their intervals."
      );
    case "noise-hides": {
      const moved = note.estimates.map((i) => {
        const { unknown, smoothMoves } = estimates[i];
        return `${unknown.name} by ±${figure(smoothMoves ?? 0)}${unknown.unit && ` ${unknown.unit}`}`;
      });
      return (
        "What is left over looks like noise, but noise of this size would hide an error of the model that moves " +
        `${moved.join(", ")} at worst, beyond the interval. Measure with less noise, or more often, to be sure.`
      );
    }
    case "plane-bell":
      return `The bell is one of plane waves, which puts upper resonances too high: by some 17 cents in the demo. ${curvedWords(note.curved, estimates)}`;
    case "no-phase":
      return "Fitted to heights and frequencies alone, since no phase was measured: it tells half as much, and intervals are wider for it.";
    case "effective-temperature":
      return (
        "The temperature is an effective one: that of an evenly warm bore with these resonances. One that is warmer at the " +
        "mouth has another for every resonance, and 1 °C is as much as 0.17 % of all lengths, which it also takes up."
      );
  }
}
