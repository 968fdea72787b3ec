/**
 * The checksum that a backup carries: SHA-256 (FIPS 180-4) of the JSON in one form, whatever the order of its keys, in
 * hexadecimal. The browser's own comes only on pages served securely and only later; this one is there at once.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { canonicalText } from "./canonical.ts";

export const checksum = (json: unknown): string => bytesToHex(sha256(utf8ToBytes(canonicalText(json))));
