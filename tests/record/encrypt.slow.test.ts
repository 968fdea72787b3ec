import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseText, readBackup } from "../../src/record/backup.ts";
import { decrypt, encrypt, isEncrypted, passphraseFlaw } from "../../src/record/encrypt.ts";
import { RecordError } from "../../src/record/recordError.ts";
import { AT } from "./jobs.ts";

describe("a backup under a passphrase", () => {
  test("comes back as it was, any text under any passphrase, and shows nothing of it", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: "binary" }),
        fc.string({ unit: "grapheme", minLength: 8 }),
        async (text, passphrase) => {
          fc.pre(passphraseFlaw(passphrase) === "");
          const well = text.toWellFormed();
          const file = JSON.parse(await encrypt(well, passphrase));
          expect(isEncrypted(file)).toBe(true);
          expect(await decrypt(file, passphrase)).toBe(well);
        },
      ),
      { numRuns: 8 },
    );
  });

  test("a short passphrase, or one of few letters, is refused in words; a backup made under one before still opens", async () => {
    for (const [passphrase, words] of [
      ["k", /at least 8 characters: shorter ones are found/],
      ["kettle7", /at least 8 characters/],
      // seven letters, however they are encoded
      ["Mo\u0308wen i", /at least 8/],
      ["aaaaaaaaaaaa", /at least 4 different characters/],
      ["12121212", /at least 4 different/],
    ] as const) {
      expect(passphraseFlaw(passphrase)).toMatch(words);
      await expect(encrypt("x", passphrase)).rejects.toThrow(RecordError);
    }
    expect(passphraseFlaw("old kettle")).toBe("");
    const file = JSON.parse(
      readFileSync(new URL("encrypted-short-passphrase.json", import.meta.url), "utf8"),
    );
    expect(readBackup(parseText(await decrypt(file, "k")), AT).jobs).toMatchObject([{ player: "Heron" }]);
  });

  test("is what its description says: another program opens it", async () => {
    const file = JSON.parse(await encrypt('{"jobs": []}', "old kettle"));
    expect(file.key.iterations).toBe(600_000);
    const bytes = (text: string) => Buffer.from(text, "base64");
    const key = pbkdf2Sync("old kettle", bytes(file.key.salt), file.key.iterations, 32, "sha256");
    const data = bytes(file.data);
    const decipher = createDecipheriv("aes-256-gcm", key, bytes(file.cipher.nonce));
    decipher.setAuthTag(data.subarray(-16));
    expect(decipher.update(data.subarray(0, -16), undefined, "utf8") + decipher.final("utf8")).toBe(
      '{"jobs": []}',
    );
  });

  test("the same passphrase typed on another system opens it", async () => {
    const file = JSON.parse(await encrypt("x", "Möwe im Wind"));
    expect(await decrypt(file, "Mo\u0308we im Wind")).toBe("x");
  });

  test("a wrong passphrase and a damaged file are told in words", async () => {
    const file = JSON.parse(await encrypt("x", "the right one"));
    await expect(decrypt(file, "wrong")).rejects.toThrow(/^this passphrase does not open the backup/);
    const flipped = `${file.data.startsWith("A") ? "B" : "A"}${file.data.slice(1)}`;
    await expect(decrypt({ ...file, data: flipped }, "the right one")).rejects.toThrow(RecordError);
    for (const damaged of [
      { ...file, data: 7 },
      { ...file, data: "?" },
      { ...file, key: null },
      { ...file, key: { ...file.key, iterations: 1e12 } },
      { ...file, key: { ...file.key, salt: "AAAA" } },
      { ...file, cipher: { name: "none" } },
      { ...file, version: 2 },
    ])
      await expect(decrypt(damaged, "the right one")).rejects.toThrow(/damaged|later version/);
  });

  test("two of the same are not alike", async () => {
    const [a, b] = await Promise.all([encrypt("x", "the same"), encrypt("x", "the same")]);
    expect(JSON.parse(a).data).not.toBe(JSON.parse(b).data);
  });
});
