import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  checksum,
  type Entry,
  generationOf,
  linesOf,
  readCopy,
  readGeneration,
} from "../../src/record/journal.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const joined = (...parts: Uint8Array[]) => Uint8Array.from(parts.flatMap((part) => [...part]));
const nothing = new Uint8Array();
const entries: Entry[] = [
  { key: "a", value: { title: "Worn receiver, Łucja" } },
  { key: "b", value: 2 },
];

describe("a copy in two files", () => {
  test("its checksum is the one of zip files", () => {
    expect(checksum(bytes("123456789"))).toBe("cbf43926");
  });

  test("says what was written last of each key", () => {
    const file = joined(
      generationOf(3, entries),
      linesOf(3, [{ key: "b", value: 3 }]),
      linesOf(3, [{ key: "a" }, { key: "c", value: "new" }]),
    );
    const { held, current, damaged } = readCopy([nothing, file]);
    expect([...held]).toEqual([
      ["b", 3],
      ["c", "new"],
    ]);
    expect([current, damaged]).toEqual([1, 0]);
    expect(readGeneration(file).end).toBe(file.length);
  });

  test("of two the newer that is whole counts", () => {
    const older = generationOf(4, [{ key: "a", value: "older" }]);
    const newer = generationOf(5, [{ key: "a", value: "newer" }]);
    expect(readCopy([newer, older]).held.get("a")).toBe("newer");
    const torn = newer.subarray(0, newer.length - 3);
    expect(readCopy([torn, older])).toMatchObject({ current: 1 });
    expect(readCopy([torn, older]).held.get("a")).toBe("older");
    expect(readCopy([torn, nothing])).toMatchObject({ current: null });
  });

  test("what an older generation left behind in the file is not read", () => {
    const long = joined(generationOf(1, entries), linesOf(1, [{ key: "z", value: "left behind" }]));
    const short = generationOf(2, [{ key: "a", value: 1 }]);
    const file = joined(short, long.subarray(short.length));
    expect([...readCopy([file, nothing]).held.keys()]).toEqual(["a"]);
    expect(readGeneration(file)).toMatchObject({ end: short.length, damaged: 0 });
  });

  test("a machine that stops at any byte loses the last line at most", () => {
    const begun = generationOf(1, entries);
    const file = joined(begun, linesOf(1, [{ key: "b", value: 3 }]), linesOf(1, [{ key: "c", value: 4 }]));
    const before = generationOf(0, [{ key: "a", value: "before" }]);
    for (let end = 0; end <= file.length; end++) {
      const { held } = readCopy([file.subarray(0, end), before]);
      if (end < begun.length) expect(held.get("a")).toBe("before");
      else expect(held.get("a")).toEqual(entries[0].value);
      expect([2, 3, undefined]).toContain(held.get("b"));
    }
  });

  test("any one flipped bit is noticed, and the older generation stands in", () => {
    const older = generationOf(1, entries);
    const newer = joined(generationOf(2, entries), linesOf(2, [{ key: "c", value: "last" }]));
    fc.assert(
      fc.property(fc.nat(newer.length - 1), fc.nat(7), (at, bit) => {
        const flipped = newer.slice();
        flipped[at] ^= 1 << bit;
        const { held } = readCopy([flipped, older]);
        expect(held.get("a")).toEqual(entries[0].value);
        expect(held.get("b")).toBe(2);
        expect(["last", undefined]).toContain(held.get("c"));
      }),
    );
  });

  test("junk is no copy", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.uint8Array({ maxLength: 300 }), (a, b) => {
        expect(readCopy([a, b])).toEqual({ held: new Map(), current: null, damaged: 0 });
      }),
    );
  });
});
