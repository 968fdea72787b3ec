/** The trade's rules of thumb in the tool's own words: common practice, no source. */
import type { Verdict } from "../../study/change/verdicts.ts";

export type Claim = Verdict["claim"];

export const RULE: Readonly<Record<Claim, string>> = {
  slots: "A wider gap makes notes slot more firmly.",
  resistance: "A wider gap blows tighter.",
  noGap: "No gap at all blows freer, like a larger bore.",
  tenth: "About a tenth of an inch suits most players; others say an eighth.",
  tooWide: "Too wide a gap locks on the wrong note and is hard to move about on.",
  tooNarrow: "Too narrow a gap feels vague and loses core high up.",
  attack: "The gap changes attack and response.",
  brightness: "The gap changes how bright the sound is.",
  octaves: "The gap changes how octaves are in tune.",
  shoulder: "The gap that shows at the shoulder matters.",
  sameMake: "Instruments of one make play differently because of the gap.",
};

/** The claims that have a card of their own; the others a line each. */
export const MAIN_CLAIMS: readonly Claim[] = ["slots", "resistance", "noGap", "tenth"];

/** What the model's answer to a rule leaves out; null where nothing is to be said of it. */
export const LEFT_OUT: Readonly<Record<Claim, string | null>> = {
  slots:
    "The lips are two simple models, as a note begins. The uncertainty of the gap itself is not in the ranges.",
  resistance:
    "A steady flow of air over even edges. When a note sounds, the opening of the lips takes most of the pressure.",
  noGap: null,
  tenth: null,
  tooWide: "How often a slur misses can be tried under Play.",
  tooNarrow: "Core is a word for sound; only the width of the high notes’ slots is looked at.",
  attack: "Only the pressure at which each note starts is looked at, not how the attack sounds.",
  brightness:
    "Only the height of the high peaks is looked at. Loudness, the steepening of loud waves and the player’s lips do more.",
  octaves: "Pitch of the resonances alone; a player corrects by ear.",
  shoulder: null,
  sameMake: null,
};
