/** What a take is asked, and what may be found in it. */
import type { Attacks } from "./attack.ts";
import type { Slot } from "./slot.ts";
import type { Slurs } from "./slur.ts";
import type { SteadyNote } from "./steady.ts";

export const TAKE_TESTS = ["steady", "slot", "slur", "attack"] as const;
export type TakeTest = (typeof TAKE_TESTS)[number];

export interface TakeQuestion {
  readonly test: TakeTest;
  /** The note meant; null where it is not said. */
  readonly nearHz: number | null;
  /** The partials that exist, neighbours included, lowest first; none where they are not said. */
  readonly notesHz: readonly number[];
}

export type TakeFinding =
  | { readonly test: "steady"; readonly notes: readonly SteadyNote[] }
  | { readonly test: "slot"; readonly slot: Slot | null }
  | { readonly test: "slur"; readonly slurs: Slurs | null }
  | { readonly test: "attack"; readonly attacks: Attacks | null };
