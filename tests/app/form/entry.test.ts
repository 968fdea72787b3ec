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
  /** A hand that types on, and is not done. */
  const typing = (text: string) => {
    const input = entry.shadowRoot!.querySelector("input")!;
    input.value = text;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  /** What the owner says of its text, and what then stands in the entry. */
  const told = async (text: string) => {
    entry.text = text;
    await entry.updateComplete;
    return entry.shadowRoot!.querySelector("input")!.value;
  };
  return { written, type, typing, told };
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

test("what comes back late of what was typed does not undo what was typed since; what is news does", async () => {
  const { written, type, typing, told } = await entryWaitingFor(async () => ({}), "entry-with-a-late-owner");
  expect(await told("12")).toBe("12");
  typing("-");
  typing("-3");
  // an owner that draws each text in its turn is one behind
  expect(await told("-")).toBe("-3");
  expect(await told("-3")).toBe("-3");
  type("-3");
  await vi.waitFor(() => expect(written.at(-1)).toEqual({ text: "-3", done: true }));
  typing("4");
  expect(await told("0.15")).toBe("0.15");
  // finished with: what was typed on the way is a text like any other
  typing("5");
  type("5.5");
  expect(await told("5")).toBe("5");
});
