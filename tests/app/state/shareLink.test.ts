import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readHash } from "../../../src/app/shell/route.ts";
import { deflateText } from "../../../src/app/state/keeping/deflate.ts";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { readDocument } from "../../../src/app/state/keeping/readDocument.ts";
import {
  decodeDocument,
  encodeDocument,
  openShared,
  shareLink,
} from "../../../src/app/state/keeping/shareLink.ts";
import { NO_NOTES } from "../../../src/app/state/notes/notes.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { SetupError } from "../../../src/setup/problem.ts";
import { exampleFile } from "../../setup/example.ts";
import { someSetup } from "../someSetup.ts";
import { answersToOtherLetters } from "./otherLetters.ts";

const lengths = (min: number, max: number) =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map((um) => um / 1000);
const documents = fc
  .record({
    name: fc.string({ unit: "grapheme", maxLength: 60 }),
    insertion: lengths(1, 24),
    bore: lengths(8, 8.6),
    gap: lengths(0, 24),
    reference: lengths(0, 24),
    breath: fc.option(fc.integer({ min: 1, max: 600 }).map((tenths) => tenths / 10)),
  })
  .map(({ name, insertion, bore, gap, reference, breath }) => {
    const file = exampleFile();
    const leadpipe = {
      profile: [
        [0, bore],
        [240, 11.68],
      ],
    };
    const setup = readSetup({
      ...file,
      name: name.toWellFormed(),
      leadpipe,
      mouthpiece: { ...file.mouthpiece, insertion },
    });
    const blown = breath !== null && { breathLitresPerMinute: breath };
    return { setup, gapMm: gap, referenceGapMm: reference, ...blown, notes: NO_NOTES };
  });

describe("a shared document", () => {
  test("comes back as it was, in letters an address takes", async () => {
    await fc.assert(
      fc.asyncProperty(documents, async (document) => {
        const text = await encodeDocument(document);
        expect(text).toMatch(/^[\w-]+$/);
        expect(await decodeDocument(text)).toEqual(document);
      }),
      { numRuns: 60 },
    );
  });

  test("stands in the address beside the task", async () => {
    const document = documentOf(someSetup());
    const page = { href: "https://bench.example/annulus/?a=b#explore&s=old" } as Location;
    const link = await shareLink(document, "edit", page);
    expect(link).toMatch(/^https:\/\/bench\.example\/annulus\/\?a=b#edit&s=[\w-]+$/);
    const { task, shared } = readHash(new URL(link).hash);
    expect(task).toBe("edit");
    expect(await decodeDocument(shared!)).toEqual(document);
  });

  test("says nothing of still air, as before there was a breath; a breath that cannot be is refused", async () => {
    const still = writeDocument(documentOf(someSetup()));
    expect(still).not.toHaveProperty("breathLitresPerMinute");
    expect(readDocument(still)).not.toHaveProperty("breathLitresPerMinute");
    expect(readDocument({ ...still, breathLitresPerMinute: 0 })).not.toHaveProperty("breathLitresPerMinute");
    for (const breathLitresPerMinute of [-1, 61, "20", null, Number.NaN])
      expect(() => readDocument({ ...still, breathLitresPerMinute })).toThrow(
        "breathLitresPerMinute: no breath; give 0 to 60 L/min",
      );
  });

  test("junk is refused in words", async () => {
    await fc.assert(
      fc.asyncProperty(fc.oneof(fc.string(), fc.base64String()), async (junk) => {
        await expect(decodeDocument(junk)).rejects.toThrow(/damaged or cut short/);
      }),
    );
  });

  test("damage anywhere is noticed", async () => {
    const text = await encodeDocument(documentOf(someSetup()));
    await fc.assert(
      fc.asyncProperty(fc.nat(text.length - 1), async (at) => {
        await expect(decodeDocument(text.slice(0, at))).rejects.toThrow(/damaged/);
        const other = text[at] === "A" ? "B" : "A";
        const changed = text.slice(0, at) + other + text.slice(at + 1);
        await expect(decodeDocument(changed)).rejects.toThrow(SetupError);
      }),
    );
  });

  test("any other letter at its end is noticed", async () => {
    const answers = await answersToOtherLetters(2);
    expect(answers).toHaveLength(9 * 63);
    expect(new Set(answers)).toEqual(new Set([true]));
  });

  test("broken into lines by a mail program it is still the same", async () => {
    const document = documentOf(someSetup());
    const text = await encodeDocument(document);
    expect(await decodeDocument(text.replace(/.{76}/g, "$&\r\n"))).toEqual(document);
  });

  test("what is not a document, or not an instrument, or endless, is refused", async () => {
    const coded = async (value: string) => Buffer.from(await deflateText(value)).toString("base64url");
    await expect(decodeDocument(await coded("null"))).rejects.toThrow("not a document");
    await expect(decodeDocument(await coded('{"format":"annulus-document","version":9}'))).rejects.toThrow(
      "version: made by a later version of this page; load the page again",
    );
    await expect(
      decodeDocument(await coded('{"format":"annulus-document","version":1,"setup":{}}')),
    ).rejects.toThrow("missing");
    await expect(decodeDocument(await coded(`"${"a".repeat(11_000_000)}"`))).rejects.toThrow("damaged");
  });

  test("a broken link says so and keeps the rest; a good one can be undone", async () => {
    const store = new Store(documentOf(someSetup()));
    const { document } = store.state;
    await openShared("nonsense", store);
    expect(store.state.document).toBe(document);
    expect(store.state.message).toMatchObject({
      kind: "error",
      text: expect.stringMatching(/^The link could not be opened: the link is damaged/),
    });
    const shared = { ...documentOf(someSetup({ name: "Shared" })), gapMm: 1 };
    await openShared(await encodeDocument(shared), store);
    expect(store.state.document).toEqual(shared);
    store.undo();
    expect(store.state.document).toBe(document);
  });
});

test("an address names a task, or the first", () => {
  expect(["", "#", "#edit", "#/edit", "#nowhere", "#s=abc", "#edit&s=a-_b"].map(readHash)).toEqual([
    { task: "explore", shared: null },
    { task: "explore", shared: null },
    { task: "edit", shared: null },
    { task: "edit", shared: null },
    { task: "explore", shared: null },
    { task: "explore", shared: "abc" },
    { task: "edit", shared: "a-_b" },
  ]);
});
