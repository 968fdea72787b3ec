// @vitest-environment jsdom
import { ContextProvider } from "@lit/context";
import { afterEach, expect, test, vi } from "vitest";
import "../../../../src/app/tasks/edit/editor.ts";
import { type Page, pageContext } from "../../../../src/app/state/page.ts";
import { documentOf, Store } from "../../../../src/app/state/store.ts";
import type { AnnulusEditor } from "../../../../src/app/tasks/edit/editor.ts";
import { volumeMl } from "../../../../src/setup/bore/mouthpieceShape.ts";
import { flawsOf } from "../../../../src/setup/dimension/plausible.ts";
import { flawedSetup, someSetup } from "../../someSetup.ts";

const setup = someSetup();

/** Two frames: an element is drawn at most once in each. */
const frame = () => new Promise(requestAnimationFrame);
const drawn = async () => {
  await frame();
  await frame();
};

async function openEditor(of = setup): Promise<{ editor: AnnulusEditor; store: Store }> {
  const store = new Store(documentOf(of));
  const desk = document.body.appendChild(document.createElement("div"));
  new ContextProvider(desk, { context: pageContext, initialValue: { store } as Page });
  const editor = desk.appendChild(document.createElement("annulus-editor"));
  await drawn();
  return { editor, store };
}

afterEach(() => document.body.replaceChildren());

const fieldOf = (editor: AnnulusEditor, path: string) =>
  editor.shadowRoot!.querySelector(`annulus-entry[data-path="${path}"]`)!.shadowRoot!;

async function enter(root: ShadowRoot, selector: string, text: string): Promise<HTMLInputElement> {
  const input = root.querySelector<HTMLInputElement>(selector)!;
  input.value = text;
  input.dispatchEvent(new Event("change", { bubbles: true }));
  await drawn();
  return input;
}

test("a finished entry is one undo step and is shown as it was understood", async () => {
  const { editor, store } = await openEditor();
  const depth = await enter(fieldOf(editor, "receiver.depth"), "#text", "1 in");
  expect(depth.value).toBe("25.4");
  expect(store.state.document).toMatchObject({ gapMm: 3.4, setup: { receiver: { depthMm: 25.4 } } });
  store.undo();
  expect(store.state).toMatchObject({ document: { setup, gapMm: 2.54 }, canUndo: false });
  await drawn();
  expect(depth.value).toBe("24.54");
});

test("a refused entry stays, is described beside the field and changes nothing", async () => {
  const { editor, store } = await openEditor();
  const field = fieldOf(editor, "mouthpiece.insertion");
  const insertion = await enter(field, "#text", "30");
  expect(insertion.value).toBe("30");
  expect(insertion.getAttribute("aria-invalid")).toBe("true");
  const [problem] = insertion.getAttribute("aria-describedby")!.split(" ");
  expect(field.getElementById(problem)).toMatchObject({
    textContent: expect.stringContaining("The gap would be"),
  });
  expect(field.getElementById(problem)!.getAttribute("role")).toBe("alert");
  expect(store.state.canUndo).toBe(false);
  field.querySelector("button")!.click();
  await drawn();
  expect(insertion.value).toBe("22");
  expect(insertion.getAttribute("aria-invalid")).toBe("false");
});

test("a setup that was kept and is no instrument by now is put right a field at a time, each problem beside its field", async () => {
  const { editor, store } = await openEditor(flawedSetup());
  const field = fieldOf(editor, "receiver.depth");
  const depth = field.querySelector<HTMLInputElement>("#text")!;
  expect(depth.value).toBe("245.4");
  expect(depth.getAttribute("aria-invalid")).toBe("true");
  const [problem] = depth.getAttribute("aria-describedby")!.split(" ");
  expect(field.getElementById(problem)!.textContent).toMatch(
    /A depth of 245\.4 mm cannot be: give 1 mm to 150 mm/,
  );
  const list = editor.shadowRoot!.querySelector("annulus-warnings")!.shadowRoot!;
  expect(list.textContent).toMatch(/receiver\.depth: a depth of 245\.4 mm cannot be/);
  const insertion = await enter(fieldOf(editor, "mouthpiece.insertion"), "#text", "20");
  expect(insertion.getAttribute("aria-invalid")).toBe("false");
  await enter(field, "#text", "22.5");
  expect(depth.getAttribute("aria-invalid")).toBe("false");
  expect(flawsOf(store.state.document.setup)).toEqual([]);
  expect(store.state.document.gapMm).toBe(2.5);
  await enter(field, "#text", "245.4");
  expect(depth.getAttribute("aria-invalid")).toBe("true");
  expect(store.state.document.setup.receiver.depthMm).toBe(22.5);
});

test("the display follows the unit; what is shown and left is not an edit", async () => {
  const { editor, store } = await openEditor();
  store.setView({ unit: "in" });
  await drawn();
  const insertion = await enter(fieldOf(editor, "mouthpiece.insertion"), "#text", "0.86614");
  expect(insertion.value).toBe("0.86614");
  expect(store.state).toMatchObject({ document: { setup }, canUndo: false });
});

test("where the slider stands is a view: what is edited is the instrument as it is, and only what was typed changes", async () => {
  const { editor, store } = await openEditor();
  store.setGap(4);
  await drawn();
  const field = fieldOf(editor, "mouthpiece.insertion");
  expect(field.querySelector("input")!.value).toBe("22");
  await editor.reveal("name");
  await enter(fieldOf(editor, "name"), "#text", "Renamed");
  expect(store.state.document.gapMm).toBe(4);
  // the same part: to the model nothing has changed
  expect(store.state.document.setup.mouthpiece).toBe(setup.mouthpiece);
  await enter(field, "#text", "22.04");
  expect(store.state.document).toMatchObject({ gapMm: 2.5, referenceGapMm: 2.5, setup: { name: "Renamed" } });
});

test("a row emptied with the keyboard is taken out once, though the browser tells of it twice", async () => {
  const { editor, store } = await openEditor();
  await editor.reveal("body.profile[1][0]");
  const table = editor.shadowRoot!.querySelector('annulus-profile-table[bore="body"]')!.shadowRoot!;
  await enter(table, '[data-row="1"][data-column="0"]', "");
  const bore = table.querySelector<HTMLInputElement>('[data-row="1"][data-column="1"]')!;
  bore.focus();
  bore.value = "";
  bore.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, cancelable: true }));
  bore.dispatchEvent(new Event("change", { bubbles: true }));
  await drawn();
  expect(store.state.document.setup.body.profileMm).toEqual([
    [0, 11.68],
    [1030, 122],
  ]);
  expect(table.querySelectorAll('[role="alert"]')).toHaveLength(0);
  store.undo();
  expect(store.state.document.setup).toBe(setup);
});

test("Escape takes back what is being typed, then closes", async () => {
  const { editor } = await openEditor();
  const closed = vi.fn();
  editor.addEventListener("close", closed);
  const input = fieldOf(editor, "receiver.depth").querySelector("input")!;
  const pressEscape = () =>
    input.dispatchEvent(
      new KeyboardEvent("keydown", { key: "Escape", bubbles: true, composed: true, cancelable: true }),
    );
  input.value = "9";
  pressEscape();
  expect(input.value).toBe("24.54");
  expect(closed).not.toHaveBeenCalled();
  pressEscape();
  expect(closed).toHaveBeenCalledOnce();
});

test("every control has a label and no style is written into the page", async () => {
  const { editor } = await openEditor();
  for (const path of [
    "name",
    "air.temperature",
    "model.junction",
    "thresholds.cents",
    "leadpipe.profile[0][0]",
  ])
    await editor.reveal(path);
  await drawn();
  const roots = [editor.shadowRoot!];
  for (const root of roots)
    for (const element of root.querySelectorAll("*")) if (element.shadowRoot) roots.push(element.shadowRoot);
  const controls = roots.flatMap((root) => [
    ...root.querySelectorAll<HTMLInputElement | HTMLSelectElement>("input, select, textarea"),
  ]);
  expect(controls.length).toBeGreaterThan(25);
  for (const control of controls)
    expect(control.getAttribute("aria-label") ?? control.labels?.[0]?.textContent?.trim()).toBeTruthy();
  expect(roots.flatMap((root) => [...root.querySelectorAll("[style]")])).toEqual([]);
});

test("a stand-in is begun with by its family, is said to be assumed, and undo brings back what was open", async () => {
  const { editor, store } = await openEditor();
  const choice = editor.shadowRoot!.querySelector("annulus-stand-in-choice")!.shadowRoot!;
  const select = choice.querySelector("select")!;
  expect([...select.querySelectorAll("optgroup")].map(({ label }) => label)).toEqual([
    "Trumpets and cornets",
    "Trombones",
    "Horn",
    "Euphonium and tuba",
  ]);
  expect(select.options.length).toBe(12);
  expect(choice.textContent).toContain("every dimension is assumed");
  select.value = "bass-trombone";
  select.dispatchEvent(new Event("change", { bubbles: true }));
  choice.querySelector("button")!.click();
  await vi.waitFor(() => expect(store.state.document.setup.name).toBe("Stand-in bass trombone"));
  expect(store.state).toMatchObject({ document: { gapMm: 3, referenceGapMm: 3 } });
  expect(store.state.message?.text).toContain("assumed until you enter your own");
  store.undo();
  expect(store.state.document.setup).toBe(setup);
});

test("a mouthpiece is drawn from rim, cup, throat and backbore: one undo step, what was typed stays until then", async () => {
  const { editor, store } = await openEditor();
  const summary = [...editor.shadowRoot!.querySelectorAll("details")].find((one) =>
    one.querySelector("summary")!.textContent!.includes("Bore from usual numbers"),
  )!;
  summary.open = true;
  summary.dispatchEvent(new Event("toggle"));
  await drawn();
  const numbers = editor.shadowRoot!.querySelector("annulus-mouthpiece-numbers")!;
  const write = async (name: string, text: string) => {
    const entry = numbers.shadowRoot!.querySelector(`annulus-entry[data-name="${name}"]`)!;
    await enter(entry.shadowRoot!, "#text", text);
  };
  const shown = (name: string) =>
    numbers
      .shadowRoot!.querySelector(`annulus-entry[data-name="${name}"]`)!
      .shadowRoot!.querySelector("input")!.value;
  const draw = async () => {
    numbers.shadowRoot!.querySelector<HTMLElement>("[data-testid=draw-mouthpiece]")!.click();
    await drawn();
  };
  await write("rimDiameterMm", "0.66 in");
  await write("cupDepthMm", "11");
  await write("throatDiameterMm", "3.8");
  await write("volumeMl", "99");
  await draw();
  expect(numbers.shadowRoot!.querySelector("[role=alert]")!.textContent).toMatch(/cannot hold 99 ml; give/);
  expect(shown("rimDiameterMm")).toBe("0.66 in");
  expect(store.state.document.setup).toBe(setup);
  await write("volumeMl", "1,25");
  await draw();
  expect(numbers.shadowRoot!.querySelector("[role=alert]")).toBeNull();
  const { mouthpiece } = store.state.document.setup;
  expect(mouthpiece).toMatchObject({ cupDepthMm: 11, insertionMm: setup.mouthpiece.insertionMm });
  expect(mouthpiece.profileMm[0][1]).toBeCloseTo(16.764, 6);
  expect(Math.min(...mouthpiece.profileMm.map(([, d]) => d))).toBe(3.8);
  expect(volumeMl(mouthpiece.profileMm, 11)).toBeCloseTo(1.25, 6);
  expect(shown("volumeMl")).toBe("1.25");
  // three numbers of seven make no drawing of the whole
  expect(store.state.document.setup.provenance["mouthpiece.cupDepth"]).toBe("measured");
  expect(store.state.document.setup.provenance["mouthpiece.profile"]).toBe(
    setup.provenance["mouthpiece.profile"],
  );
  store.undo();
  expect(store.state.document.setup).toBe(setup);
});

test("a diameter typed in the other unit is asked about below its row, and taken as it was meant", async () => {
  const { editor, store } = await openEditor();
  await editor.reveal("leadpipe.profile[0][1]");
  const table = editor.shadowRoot!.querySelector('annulus-profile-table[bore="leadpipe"]')!.shadowRoot!;
  const asked = () => table.querySelector<HTMLElement>('[data-testid="other-unit"]');
  expect(asked()).toBeNull();
  await enter(table, '[data-row="0"][data-column="1"]', "0.45");
  expect(asked()!.textContent).toContain("did you mean 0.45 in (11.43 mm)?");
  asked()!.querySelector("button")!.click();
  await drawn();
  expect(asked()).toBeNull();
  expect(store.state.document.setup.leadpipe.profileMm[0][1]).toBeCloseTo(11.43, 9);
});
