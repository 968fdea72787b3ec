/**
 * A short name for a text that another text has not got by accident: FNV-1a, 64 bits (Fowler, Noll & Vo). A
 * name to match papers by, no seal: who wants to can make another text with the same name.
 */
const OFFSET = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** 16 hexadecimal digits. */
export function fingerprint(text: string): string {
  let hash = OFFSET;
  for (const byte of new TextEncoder().encode(text)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash.toString(16).padStart(16, "0");
}
