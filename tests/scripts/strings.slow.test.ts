/** The whole list: every source file is read. */
import { describe, expect, it } from "vitest";
import { strings } from "../../scripts/strings.mjs";

describe("the list of what a person reads", () => {
  it("has something of every kind of source: words, page, terminal, schema, README, notebooks", () => {
    const all = strings() as { file: string; line: number; text: string }[];
    const has = (file: RegExp, text: RegExp) => all.some((one) => file.test(one.file) && text.test(one.text));
    expect(has(/^src\/words\//, /Unlikely to be noticed/)).toBe(true);
    expect(has(/^src\/app\//, /Compare with this/)).toBe(true);
    expect(has(/^src\/cli\//, /gap/i)).toBe(true);
    expect(has(/^shared\/.*schema/, /mouthpiece/i)).toBe(true);
    expect(has(/^README/, /receiver gap/)).toBe(true);
    expect(has(/^notebooks\/.*html$/, /./)).toBe(true);
    expect(all.some(({ text }) => /font-size:/.test(text))).toBe(false);
  });
});
