/** What is said of modelled lips: what either model is called, what each says, and how far from the instrument it sounds. */
import type { LipModelName, ModelRange } from "../study/change/verdicts.ts";
import { signed } from "./numbers.ts";

/** Which lips, in a list or a choice. */
export const LIP_MODEL: Readonly<Record<LipModelName, string>> = {
  "one-mass": "one-mass lips",
  "two-way": "two-way lips",
};

/**
 * How far from a resonance notes begin with the usual lips on the demo, at 1.3 and 2 times their starting pressures
 * (tests/study/feel/lipBias.slow.test.ts). A player plays some 19 cents above (Boutin, Fletcher, Smith & Wolfe 2015).
 */
export const LIP_BIAS: Readonly<Record<LipModelName, string>> = {
  "one-mass":
    "With one-mass lips notes begin some 60 to 100 cents above the instrument’s resonances, and sound nearer to them once they are loud",
  "two-way":
    "With two-way lips notes begin from some 55 cents below the instrument’s resonances, on the lowest note, to some 50 above",
};

/** Beside any pitch that lips give. */
export const ONLY_CHANGES = "players sound some 20 above: only a change from gap to gap means anything.";

/** Each model's own range, where both have one: "one-mass lips −2.6 to +4.0, two-way lips −1.6 to +0.5". */
export const eachModel = (models: readonly ModelRange[], digits: number): string =>
  models.length < 2
    ? ""
    : models
        .map(
          ({ model, range: [low, high] }) =>
            `${LIP_MODEL[model]} ${signed(low, digits)} to ${signed(high, digits)}`,
        )
        .join(", ");

/** Whether what one model finds in all its sets of lips is not what the other does: more, less, or nothing to notice. */
export function modelsPart(models: readonly ModelRange[], threshold: number): boolean {
  const found = models.map(({ range: [low, high] }) =>
    low >= threshold
      ? "more"
      : high <= -threshold
        ? "less"
        : low > -threshold && high < threshold
          ? "small"
          : "open",
  );
  return new Set(found).size > 1;
}
