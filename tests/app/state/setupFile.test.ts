import { expect, test } from "vitest";
import { openFile, setupFileText } from "../../../src/app/state/keeping/setupFile.ts";
import { setupFileName } from "../../../src/app/state/keeping/setupFileName.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { writeBackup } from "../../../src/record/backup.ts";
import { readSetupText } from "../../../src/setup/file/readSetup.ts";
import { someSetup } from "../someSetup.ts";

const file = (name: string, text: string) => ({ name, text: async () => text });

test("a file that is opened takes the place of what was there, which undo brings back", async () => {
  const store = new Store(documentOf(someSetup()));
  const before = store.state.document;
  await openFile(file("other.json", setupFileText(someSetup({ name: "Other", insertion: 21 }))), store);
  expect(store.state.document).toMatchObject({ setup: { name: "Other" }, gapMm: 3.54, referenceGapMm: 3.54 });
  store.undo();
  expect(store.state.document).toBe(before);
});

test("a file that is refused changes nothing and is named in one line", async () => {
  const store = new Store(documentOf(someSetup()));
  const { document } = store.state;
  const unreadable = {
    name: "gone.json",
    text: () => Promise.reject(new DOMException("gone", "NotFoundError")),
  };
  for (const bad of [file("a.json", "{"), file("a.json", "{}"), unreadable]) {
    await openFile(bad, store);
    expect(store.state).toMatchObject({ document, canUndo: false, message: { kind: "error" } });
    expect(store.state.message!.text).toMatch(/^(a|gone)\.json: .+$/);
  }
});

test("a backup of jobs is told where it belongs", async () => {
  const store = new Store(documentOf(someSetup()));
  await openFile(file("b.json", writeBackup([], "2026-03-01T09:00:00.000Z")), store);
  expect(store.state).toMatchObject({ canUndo: false, message: { kind: "error" } });
  expect(store.state.message!.text).toMatch(/^b\.json: a file of jobs; .*Restore from a file/);
});

test("what is saved is read again as it was", () => {
  const setup = someSetup();
  expect(readSetupText(setupFileText(setup))).toEqual(setup);
});

test("a file is named after the instrument", () => {
  const names = ["Invented B♭ no. 7, Kettle Lane", "Größe/3", "…", ""];
  expect(names.map((name) => setupFileName(someSetup({ name })))).toEqual([
    "invented-b-no-7-kettle-lane.setup.json",
    "gro-e-3.setup.json",
    "instrument.setup.json",
    "instrument.setup.json",
  ]);
});
