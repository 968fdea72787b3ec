/**
 * A backup under a passphrase: JSON `annulus-backup-encrypted`,
 *
 *     { "format": "annulus-backup-encrypted", "version": 1,
 *       "key": { "derivation": "PBKDF2-SHA-256", "iterations": 600000, "salt": base64 of 16 bytes },
 *       "cipher": { "name": "AES-256-GCM", "nonce": base64 of 12 bytes },
 *       "data": base64 of the encrypted UTF-8 text of an annulus-backup, the 16-byte tag at its end }
 *
 * The key is PBKDF2 (RFC 8018) of the passphrase's UTF-8 in Unicode form NFKC, salt and nonce are drawn anew each time.
 * 600,000 iterations: OWASP Password Storage Cheat Sheet for PBKDF2-HMAC-SHA256 (as of 2023 and since). GCM (NIST SP
 * 800-38D) notices a wrong passphrase and any change of the data. Nobody can open it without the passphrase.
 */
import { formatOf } from "./backup.ts";
import { RecordError } from "./recordError.ts";

const FORMAT = "annulus-backup-encrypted";
const ITERATIONS = 600_000;
/** A file that asks for more would hold the page up for minutes. */
const MOST_ITERATIONS = 10_000_000;
const SALT_BYTES = 16;
const NONCE_BYTES = 12;

type Bytes = Uint8Array<ArrayBuffer>;

/** Whether parsed JSON says that it is an encrypted backup. */
export const isEncrypted = (json: unknown): boolean => formatOf(json) === FORMAT;

const LEAST_LENGTH = 8;
const FEWEST_DIFFERENT = 4;

/** Why a new passphrase would not keep anybody out, in words; empty where it may. Old ones open all the same. */
export function passphraseFlaw(passphrase: string): string {
  const characters = [...passphrase.normalize("NFKC")];
  if (characters.length < LEAST_LENGTH)
    return `a passphrase has at least ${LEAST_LENGTH} characters: shorter ones are found by trying them all`;
  if (new Set(characters).size < FEWEST_DIFFERENT)
    return `a passphrase has at least ${FEWEST_DIFFERENT} different characters: this one is soon found by trying`;
  return "";
}

/** The file's text. @throws RecordError for a weak passphrase, or where the browser does not encrypt */
export async function encrypt(text: string, passphrase: string): Promise<string> {
  const flaw = passphraseFlaw(passphrase);
  if (flaw) throw new RecordError(flaw);
  const salt = crypto.getRandomValues(new Uint8Array(SALT_BYTES));
  const nonce = crypto.getRandomValues(new Uint8Array(NONCE_BYTES));
  const key = await derivedKey(passphrase, salt, ITERATIONS);
  const data = await cipher().encrypt({ name: "AES-GCM", iv: nonce }, key, new TextEncoder().encode(text));
  const file = {
    format: FORMAT,
    version: 1,
    key: { derivation: "PBKDF2-SHA-256", iterations: ITERATIONS, salt: toBase64(salt) },
    cipher: { name: "AES-256-GCM", nonce: toBase64(nonce) },
    data: toBase64(new Uint8Array(data)),
  };
  return `${JSON.stringify(file, null, 1)}\n`;
}

/** The text that was encrypted. @throws RecordError in words for a wrong passphrase or a damaged file */
export async function decrypt(json: unknown, passphrase: string): Promise<string> {
  const { salt, nonce, iterations, data } = readParts(json);
  const key = await derivedKey(passphrase, salt, iterations);
  let text: ArrayBuffer;
  try {
    text = await cipher().decrypt({ name: "AES-GCM", iv: nonce }, key, data);
  } catch {
    throw new RecordError(
      "this passphrase does not open the backup; type it as it was, or the file is damaged",
    );
  }
  return new TextDecoder().decode(text);
}

interface Envelope {
  readonly version?: unknown;
  readonly key?: { readonly derivation?: unknown; readonly iterations?: unknown; readonly salt?: unknown };
  readonly cipher?: { readonly name?: unknown; readonly nonce?: unknown };
  readonly data?: unknown;
}

function readParts(json: unknown) {
  const { version, key, cipher, data } = json as Envelope;
  if (typeof version === "number" && version > 1)
    throw new RecordError("encrypted by a later version of this page; load the page again to get it");
  if (version !== 1 || key?.derivation !== "PBKDF2-SHA-256" || cipher?.name !== "AES-256-GCM")
    throw new RecordError("the encrypted backup is damaged: it does not say how it was encrypted");
  const { iterations } = key;
  if (
    typeof iterations !== "number" ||
    !Number.isInteger(iterations) ||
    iterations < 1 ||
    iterations > MOST_ITERATIONS
  )
    throw new RecordError("the encrypted backup is damaged: its number of iterations cannot be");
  return {
    iterations,
    salt: fromBase64(key.salt, SALT_BYTES),
    nonce: fromBase64(cipher.nonce, NONCE_BYTES),
    data: fromBase64(data),
  };
}

async function derivedKey(passphrase: string, salt: Bytes, iterations: number): Promise<CryptoKey> {
  const bytes = new TextEncoder().encode(passphrase.normalize("NFKC"));
  const secret = await cipher().importKey("raw", bytes, "PBKDF2", false, ["deriveKey"]);
  return cipher().deriveKey(
    { name: "PBKDF2", hash: "SHA-256", salt, iterations },
    secret,
    { name: "AES-GCM", length: 256 },
    false,
    ["encrypt", "decrypt"],
  );
}

/** Browsers encrypt only on pages that came over https or from this machine. */
function cipher(): SubtleCrypto {
  if (!crypto.subtle)
    throw new RecordError("the browser encrypts only on a page opened over https or from this machine");
  return crypto.subtle;
}

/** As many bytes at once as a function takes arguments everywhere. */
const CHUNK = 0x8000;

function toBase64(bytes: Bytes): string {
  let binary = "";
  for (let i = 0; i < bytes.length; i += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(i, i + CHUNK));
  return btoa(binary);
}

function fromBase64(text: unknown, length?: number): Bytes {
  try {
    const bytes = Uint8Array.from(atob(typeof text === "string" ? text : "?"), (letter) =>
      letter.charCodeAt(0),
    );
    if (length === undefined || bytes.length === length) return bytes;
  } catch {
    // not base64: said below
  }
  throw new RecordError("the encrypted backup is damaged; make another copy of the file");
}
