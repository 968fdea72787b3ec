import type { JobTexts } from "../../../record/job.ts";
import type { Document } from "../state.ts";

/** What a job is called until the person says otherwise. */
export const textsOf = ({ setup, notes }: Document): JobTexts => ({
  title: setup.name || "Untitled",
  player: notes.sheet.heads.player.trim() || notes.trial.trials.at(-1)?.player || "",
  instrument: notes.sheet.heads.instrument.trim() || setup.name,
  mouthpiece: notes.sheet.heads.mouthpiece.trim(),
});
