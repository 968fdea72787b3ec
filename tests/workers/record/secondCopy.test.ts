import { describe, expect, test } from "vitest";
import { readCopy } from "../../../src/record/journal.ts";
import { type HeldFile, TwoFiles } from "../../../workers/record/secondCopy.ts";

/** A disk with so much room, which a full one uses up to its last byte and then says nothing, as browsers do. */
class Disk {
  roomBytes = Number.POSITIVE_INFINITY;

  file(): HeldFile & { bytes: Uint8Array<ArrayBuffer> } {
    const disk = this;
    return {
      bytes: new Uint8Array(),
      getSize() {
        return this.bytes.length;
      },
      read(into, { at }) {
        into.set(this.bytes.subarray(at, at + into.length));
        return into.length;
      },
      write(from, { at }) {
        const more = Math.min(Math.max(0, at + from.length - this.bytes.length), disk.roomBytes);
        disk.roomBytes -= more;
        const grown = new Uint8Array(this.bytes.length + more);
        grown.set(this.bytes);
        const some = from.subarray(0, grown.length - at);
        grown.set(some, at);
        this.bytes = grown;
        return some.length;
      },
      flush() {},
    };
  }
}

function twoFiles() {
  const disk = new Disk();
  const files = [disk.file(), disk.file()] as const;
  const found = () => readCopy([files[0].bytes, files[1].bytes]);
  return { disk, files, found, open: () => new TwoFiles(files) };
}

const big = (n: number) => `${n}`.repeat(50_000);

describe("two files that are held", () => {
  test("what is put is there for the next who opens them", () => {
    const { open, found } = twoFiles();
    const first = open();
    expect(first.put([{ key: "a", value: 1 }])).toBe(true);
    expect(first.put([{ key: "b", value: 2 }, { key: "a" }])).toBe(true);
    expect([...found().held]).toEqual([["b", 2]]);
    const second = open();
    expect([...second.held]).toEqual([["b", 2]]);
    second.put([{ key: "c", value: 3 }]);
    expect([...open().held.keys()]).toEqual(["b", "c"]);
  });

  test("do not grow without end, and one of them is whole at any time", () => {
    const { open, files, found } = twoFiles();
    const copy = open();
    const used = new Set<number | null>();
    for (let i = 0; i < 60; i++) {
      expect(copy.put([{ key: "a", value: big(i) }])).toBe(true);
      if (i % 3 > 0) continue;
      const { current, held, damaged } = found();
      used.add(current);
      expect([held.get("a"), damaged]).toEqual([big(i), 0]);
    }
    expect(used).toEqual(new Set([0, 1]));
    for (const { bytes } of files) expect(bytes.length).toBeLessThan(3e6);
  });

  test("a full disk takes what fits in the room kept free; what does not is said, and made good when there is room", () => {
    const { disk, open, found } = twoFiles();
    const copy = open();
    copy.put([{ key: "a", value: "before" }]);
    disk.roomBytes = 0;
    expect(copy.put([{ key: "b", value: "while full" }])).toBe(true);
    expect(found().held.get("b")).toBe("while full");
    const taken = Array.from({ length: 20 }, (_, i) => copy.put([{ key: `big ${i}`, value: big(i) }]));
    expect(taken[0]).toBe(true);
    expect(taken.at(-1)).toBe(false);
    expect(found().held.get("a")).toBe("before");
    disk.roomBytes = 1e9;
    expect(copy.put([{ key: "c", value: 3 }])).toBe(true);
    const { held } = found();
    expect([...held.keys()]).toHaveLength(23);
    expect(held.get("big 19")).toBe(big(19));
  });

  test("damage found at the start is mended from the older of the two", () => {
    const { open, files, found } = twoFiles();
    const copy = open();
    for (let i = 0; i < 40; i++)
      copy.put([
        { key: "a", value: big(i) },
        { key: "b", value: i },
      ]);
    const { current } = found();
    const { bytes } = files[current!];
    bytes[bytes.indexOf("b".charCodeAt(0)) + 100] ^= 1;
    open();
    const mended = found();
    expect(mended.damaged).toBe(0);
    expect(mended.held.get("b")).toBe(39);
  });
});
