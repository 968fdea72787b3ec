/** What a repairer is told before and while altering a shank or a receiver, each caution by its code. */

export type CutCaution =
  | "try-first"
  | "stages"
  | "seat-wear"
  | "lathe"
  | "finest-cut"
  | "thin-wall"
  | "plating"
  | "solder"
  | "exit-bore"
  | "sleeve"
  | "exchange"
  | "stop";

/** Shown whatever is planned. */
export const usualCautions = [
  "lathe",
  "thin-wall",
  "plating",
  "solder",
] as const satisfies readonly CutCaution[];
