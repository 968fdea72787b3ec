/** JSON compared by what it says, whatever the order of its keys, and a short name made from it. */

/** The same text for the same JSON. */
export const canonicalText = (json: unknown): string =>
  JSON.stringify(json, (_, value: unknown) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );

/** Odd numbers with well mixed bits, one a lane (the constants of MurmurHash3 and xxHash, Appleby and Collet, from memory). */
const MULTIPLIERS = [0x85ebca6b, 0xc2b2ae35, 0x27d4eb2f, 0x9e3779b1];

/**
 * An id in a UUID's letters that is the same for the same JSON, so that what is taken in twice is there once. To tell
 * records apart, not to keep secrets.
 */
export function fingerprint(json: unknown): string {
  const text = canonicalText(json);
  return uuidText(MULTIPLIERS.map((by) => sum(text, by).toString(16).padStart(8, "0")).join(""));
}

/** 32 hexadecimal digits as a UUID is written. */
export const uuidText = (digits: string): string =>
  digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");

/** 32 bits: each letter multiplied in and the bits turned, so that high ones reach low ones; stirred at the end. */
function sum(text: string, by: number): number {
  let bits = text.length ^ by;
  for (let i = 0; i < text.length; i++) {
    bits = Math.imul(bits ^ text.charCodeAt(i), by);
    bits = (bits << 15) | (bits >>> 17);
  }
  bits = Math.imul(bits ^ (bits >>> 16), by);
  return (bits ^ (bits >>> 13)) >>> 0;
}
