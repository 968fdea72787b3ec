import "fake-indexeddb/auto";
import { afterEach, expect, test } from "vitest";
import { AnswerStore } from "../../../src/app/state/keeping/answerStore.ts";

const opened: AnswerStore[] = [];
function store(version: string, factory?: IDBFactory): AnswerStore {
  const one = new AnswerStore(version, factory);
  opened.push(one);
  return one;
}

afterEach(async () => {
  for (const one of opened.splice(0)) await one.close();
  await new Promise((done) => {
    indexedDB.deleteDatabase("annulus-answers").onsuccess = done;
  });
});

test("an answer is found again under its name, columns of numbers as they were", async () => {
  const answer = { widths: Float64Array.of(12.5, 14), finding: "agrees", none: null };
  await store("1").keep("felt at 2.5", answer);
  expect(await store("1").find("felt at 2.5")).toEqual(answer);
  expect(await store("1").find("felt at 3")).toBeNull();
});

test("another version of the page finds nothing, and its first answer forgets the rest", async () => {
  await store("1").keep("felt", { slots: 1 });
  const newer = store("2");
  expect(await newer.find("felt")).toBeNull();
  await newer.keep("closed", { slots: 2 });
  expect(await store("1").find("felt")).toBeNull();
  expect(await newer.find("closed")).toEqual({ slots: 2 });
});

test("the newest forty are kept", async () => {
  const kept = store("1");
  for (let i = 0; i < 45; i++) {
    await kept.keep(`${i}`, { i });
    // no two at one time
    await new Promise((done) => setTimeout(done, 2));
  }
  expect(await kept.find("4")).toBeNull();
  expect(await kept.find("5")).toEqual({ i: 5 });
  expect(await kept.find("44")).toEqual({ i: 44 });
});

test("without a database nothing is kept and nobody is kept waiting", async () => {
  const refusing = {
    open() {
      throw new DOMException("not allowed", "SecurityError");
    },
  } as unknown as IDBFactory;
  await store("1", refusing).keep("felt", { slots: 1 });
  expect(await store("1", refusing).find("felt")).toBeNull();
  const silent = { open: () => ({}) } as unknown as IDBFactory;
  // never opened, so never closed
  expect(await new AnswerStore("1", silent).find("felt")).toBeNull();
});
