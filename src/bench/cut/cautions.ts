/** What a repairer is told before and while altering a shank or a receiver, each caution by its code. */

export type CutCaution =
  | "try-first"
  | "stages"
  | "seat-wear"
  | "lathe"
  | "holding"
  | "abrasive"
  | "thin-wall"
  | "plating"
  | "solder"
  | "dust"
  | "playing"
  | "local-rules"
  | "both-edges"
  | "sleeve"
  | "exchange"
  | "stop";

/** Shown whatever is planned. */
export const usualCautions = [
  "lathe",
  "holding",
  "abrasive",
  "thin-wall",
  "plating",
  "solder",
  "dust",
  "playing",
  "local-rules",
] as const satisfies readonly CutCaution[];
