/** What is played for the microphone, how, what it tells, and what is said before the first take. */
import type { TakeTest } from "../../listen/takeQuestion.ts";

/** What is played, as a choice. */
export const TEST_NAMES: Readonly<Record<TakeTest, string>> = {
  slot: "Slot",
  slur: "Slurs",
  attack: "Attacks",
  steady: "Held note",
};

/** What each tells: three of them begin alike, with the note held or tongued. */
export const TEST_TELLS: Readonly<Record<TakeTest, string>> = {
  slot: "How far the note bends before it breaks.",
  slur: "How often a slur lands wrong.",
  attack: "How often the note does not speak at once.",
  steady: "Where the note stands, and how still: nothing is bent.",
};

/** How each is played. */
export const TEST_HOW: Readonly<Record<TakeTest, string>> = {
  slot: "Hold the note. Bend it slowly down until it breaks or stops; start again, hold, and bend it slowly up. Three times each way or more, all in one take.",
  slur: "Slur from the lower note to the upper one and back, at an even pace, ten times or more. No tongue.",
  attack:
    "Tongue the note ten times or more, each as long as a beat, with a clear silence between. Do not bend it.",
  steady:
    "Leave the note where it wants to be, without vibrato, for four seconds or more; three times with a breath between.",
};

/** What every player is told before the first take. */
export const LISTENING_CAUTIONS = [
  "Bending to the break tires lips: rest as long as you played, and stop when a note no longer speaks as it did. Half an hour is enough for a day.",
  "Play at an easy volume. A bell close to a wall or an ear is loud enough to harm hearing in minutes.",
] as const;
