/** How well a player's repeats agree. */
import type { Agreement } from "../../trial/repeatability.ts";

export const AGREEMENT: Readonly<Record<Agreement, string>> = {
  "all-alike": "Every turn got the same rating.",
  good: "The repeats agree well.",
  fair: "The repeats agree fairly.",
  poor: "The repeats agree little: ratings of the same code differ about as much as ratings of different codes.",
};
