/** Codes that say nothing: no letter is read or heard as another, no code has anything to do with its item or its order. */

/** Without vowels (no words), I and O, and what sounds like another letter over a room. */
const LETTERS = "CFHJKLMRTWXY";
const DIGITS = "2345679";

/** As many different codes as asked for, as `K4T`. */
export function sealedCodes(count: number, random: () => number): string[] {
  const one = (from: string): string => from[Math.floor(random() * from.length)];
  const codes = new Set<string>();
  while (codes.size < count) codes.add(one(LETTERS) + one(DIGITS) + one(LETTERS));
  return [...codes];
}
