/** What a person must know of a fit before trusting it. */
import type { ColumnFit } from "./columnFitResult.ts";

/** Correlation from which two unknowns count as one. */
const INSEPARABLE = 0.98;
/** ρ from which what the model leaves over is no noise. */
const SYSTEMATIC = 0.5;

export function findings(fit: Omit<ColumnFit, "words">): string[] {
  const { estimates, correlation, neighbours, converged } = fit;
  const name = (i: number) => estimates[i].unknown.name;
  const words: string[] = [];
  if (!converged) words.push("The fit has not settled: start from dimensions closer to the instrument's.");
  if (correlation === null)
    words.push(
      `${estimates.map((_, i) => name(i)).join(", ")}: the measurement does not tell these apart at all; fit fewer of them.`,
    );
  correlation?.forEach((row, i) => {
    row.slice(0, i).forEach((value, k) => {
      if (Math.abs(value) < INSEPARABLE) return;
      words.push(
        `${name(k)} and ${name(i)} cannot be told apart here (correlation ${value.toFixed(3)}): only one combination of the ` +
          `two is known; measure one with a gauge and fit the other.`,
      );
    });
  });
  estimates.forEach(({ atBound, value, unknown: { unit } }, i) => {
    if (atBound)
      words.push(
        `${name(i)} stands at the end of its range, ${Number(value.toPrecision(4))}${unit && ` ${unit}`}: its interval means nothing, and something ` +
          "else of the setup does not fit the measurement.",
      );
  });
  if (neighbours > SYSTEMATIC)
    words.push(
      "What is left over runs together over neighbouring frequencies: the model or the measurement is off in a way that none " +
        "of these unknowns can take up, and they may be off by more than their intervals.",
    );
  if (estimates.some(({ unknown }) => unknown.key === "temperature"))
    words.push(
      "The temperature is an effective one: that of an evenly warm bore with these resonances. One that is warmer at the " +
        "mouth has another for every resonance, and 1 °C is as much as 0.17 % of all lengths, which it also takes up.",
    );
  return words;
}
