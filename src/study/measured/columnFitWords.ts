/** What a person must know of a fit before trusting it. */
import type { ColumnFit, Judgement } from "./columnFitResult.ts";

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

/** Whether what a fit leaves over is noise, perhaps more, or a sign of a wrong model. */
export function judge({
  neighbours,
  leftOver,
  scatterDb,
}: Omit<ColumnFit, "words" | "judgement">): Judgement {
  if (scatterDb < NOTHING_DB) return "sound";
  if (neighbours > SYSTEMATIC || leftOver.chiSquare > TOO_MUCH) return "wrong";
  return leftOver.together > NO_CHANCE ? "doubtful" : "sound";
}

/** What is to be known about a fit before its numbers are used, a sentence each. */
export function findings(fit: Omit<ColumnFit, "words">): string[] {
  const { estimates, correlation, neighbours, converged, leftOver, scatterDb, judgement, setup } = fit;
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
  if (judgement === "wrong" && leftOver.chiSquare > TOO_MUCH)
    words.push(
      `Not to be trusted: what is left over, ${scatterDb.toPrecision(2)} dB, is ${Math.sqrt(leftOver.chiSquare).toPrecision(2)} times the measurement's ` +
        `noise, ${leftOver.noiseDb.toPrecision(2)} dB ${leftOver.isStated ? "as stated" : "as it jumps from one frequency to the next"}. With these ` +
        "unknowns the model cannot be made to fit, and they may be off by far more than their intervals.",
    );
  if (judgement === "wrong" && neighbours > SYSTEMATIC)
    words.push(
      "What is left over runs together over neighbouring frequencies: the model or the measurement is off in a way that none " +
        "of these unknowns can take up, and they may be off by more than their intervals.",
    );
  if (judgement === "doubtful")
    words.push(
      `Doubtful: what is left over runs together over neighbouring frequencies more than chance makes it (${leftOver.together.toFixed(0)} standard ` +
        "deviations). Under the noise the model or the measurement is off in a way that none of these unknowns can take up, and they " +
        "may be off by more than their intervals.",
    );
  if (setup.model.bell === "plane")
    words.push(
      "The bell is one of plane waves, which puts upper resonances too high: by some 25 cents in the demo. The unknowns take that " +
        "up where they can, unseen in what is left over (a gap comes out 2 mm too wide). Fit with curved fronts, model.bell " +
        '"multimodal".',
    );
  if (estimates.some(({ unknown }) => unknown.key === "temperature"))
    words.push(
      "The temperature is an effective one: that of an evenly warm bore with these resonances. One that is warmer at the " +
        "mouth has another for every resonance, and 1 °C is as much as 0.17 % of all lengths, which it also takes up.",
    );
  return words;
}
