// @vitest-environment jsdom
import { afterEach, expect, test, vi } from "vitest";
import type { Written } from "../../../src/app/form/entry.ts";

afterEach(() => {
  vi.doUnmock("../../../src/units/expression.ts");
  vi.resetModules();
  document.body.replaceChildren();
});

/** An entry of a page whose grammar of arithmetic comes when `grammar` says so, and what it writes. */
async function entryWaitingFor(grammar: () => Promise<object>, name: string) {
  vi.resetModules();
  vi.doMock("../../../src/units/expression.ts", grammar);
  // other tests of this window have the element already
  const define = vi.spyOn(customElements, "define").mockImplementation(() => {});
  const { Entry } = await import("../../../src/app/form/entry.ts");
  define.mockRestore();
  customElements.define(name, class extends Entry {});
  const entry = document.body.appendChild(document.createElement(name)) as InstanceType<typeof Entry>;
  await entry.updateComplete;
  const written: Written[] = [];
  entry.addEventListener("write", (event) => written.push((event as CustomEvent<Written>).detail));
  const type = (text: string) => {
    const input = entry.shadowRoot!.querySelector("input")!;
    input.value = text;
    input.dispatchEvent(new Event("change", { bubbles: true }));
  };
  return { written, type };
}

test("a sum is kept as typed where its grammar cannot be fetched, and says what is wrong", async () => {
  const { written, type } = await entryWaitingFor(async () => {
    throw new Error("no network");
  }, "entry-without-grammar");
  type("3.2 mm - 1/16 in");
  await vi.waitFor(() => expect(written).toEqual([{ text: "3.2 mm - 1/16 in", done: true }]));
  const { parseLengthMm } = await import("../../../src/units/length.ts");
  expect(() => parseLengthMm(written[0].text, "mm")).toThrow(/what works out sums could not be loaded/);
});

test("a sum that waited is not written over what was typed after it", async () => {
  let come = () => {};
  const grammar = new Promise<object>((resolve) => {
    come = () => resolve({});
  });
  const { written, type } = await entryWaitingFor(() => grammar, "entry-waiting");
  type("1 + 1");
  type("2 mm");
  come();
  await grammar;
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(written).toEqual([{ text: "2 mm", done: true }]);
});
