/** What the four scales are called, and what their ends mean. */
import type { Scale } from "../../../trial/trial.ts";

export const SCALE_WORDS: Readonly<
  Record<Scale, { readonly name: string; readonly low: string; readonly high: string }>
> = {
  hold: { name: "Slotting", low: "notes slip", high: "notes lock" },
  ease: { name: "Blowing", low: "hard work", high: "blows freely" },
  evenness: { name: "Evenness", low: "note by note", high: "all alike" },
  preference: { name: "Preference", low: "never", high: "this one" },
};
