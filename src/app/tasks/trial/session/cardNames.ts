/** Whose trial a card is of, in lines: job and player, instrument and mouthpiece with what stands in for them, who works here. */
import type { Trial } from "../../../../trial/trial.ts";
import { computedOnWords } from "../../../../words/jobNames.ts";
import type { JobNames } from "../../../state/record/jobNames.ts";

export function cardNames(names: JobNames, trial: Trial): readonly string[] {
  const { job, player, instrument, mouthpiece, computedOn, workshop, technician } = names;
  return [
    [job, trial.player.trim() || player],
    [instrument, mouthpiece, computedOn && computedOnWords(computedOn)],
    [workshop, technician],
  ]
    .map((line) => line.filter(Boolean).join(" · "))
    .filter(Boolean);
}
