import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { fitMatrix } from "../../../src/bench/fit/fitMatrix.ts";
import { instrumentsCsv, readInstruments, readMouthpieces } from "../../../src/bench/fit/partsCsv.ts";
import { fitWords } from "../../../src/words/bench/fit.ts";
import { fitMatrixCsv } from "../../../src/words/bench/fitMatrixCsv.ts";
import { spreadWords } from "../../../src/words/bench/fitSpread.ts";
import { expectQuiet, screenshots, useBrowser, type Visit } from "../browser.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab, still } from "../still.ts";

const { visit } = useBrowser();

const shared = (name: string) => readFileSync(new URL(`../../../shared/${name}`, import.meta.url), "utf8");
const mouthpieces = readMouthpieces(shared("demo.bench.mouthpieces.csv"));
const instruments = readInstruments(shared("demo.bench.instruments.csv"));
const demo = fitMatrix(mouthpieces, instruments);

/** File dialogs as a browser without pickers of its own has them, which a test can answer. */
const withoutPickers = () => {
  Reflect.deleteProperty(window, "showOpenFilePicker");
  Reflect.deleteProperty(window, "showSaveFilePicker");
};

async function open(options: Parameters<typeof visit>[0] = {}): Promise<Visit> {
  const visited = await visit({ hasModel: false, ...options, hash: "#fit", before: [withoutPickers] });
  await visited.page.getByTestId("begin-demo").waitFor();
  return visited;
}

/** What has the focus, within all shadows: its label, test id or text. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let at: Element | null = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    if (at instanceof HTMLInputElement) return at.labels?.[0]?.textContent ?? "";
    return (
      at?.getAttribute("data-cell") ??
      at?.getAttribute("data-testid") ??
      at?.getAttribute("aria-label") ??
      at?.textContent?.trim() ??
      ""
    );
  });

/** Walks by Tab until what has the focus is called so. */
async function tabTo(page: Page, name: string | RegExp, key = "Tab"): Promise<void> {
  for (let i = 0; i < 250; i++) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (typeof name === "string" ? now === name : name.test(now)) return;
  }
  throw new Error(`no Tab leads to ${name}`);
}

const cell = (page: Page, mouthpiece: number, instrument: number) =>
  page.locator(`[data-cell="${mouthpiece} ${instrument}"]`);
const gapIn = (page: Page, mouthpiece: number, instrument: number): Promise<string> =>
  cell(page, mouthpiece, instrument).locator(".figures b").innerText();
/** What a cell shows in place of a plain gap. */
const remark = (page: Page, mouthpiece: number, instrument: number): Promise<string> =>
  cell(page, mouthpiece, instrument).locator(".remark").innerText();
const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

async function loadDemo(page: Page): Promise<void> {
  await page.getByTestId("begin-demo").click();
  await cell(page, 4, 11).waitFor();
}

/** Hands a table to the file dialog that a button opens. */
async function choose(page: Page, button: string, name: string, text: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByTestId(button).click();
  await (await chooser).setFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
}

async function saved(page: Page, button: string): Promise<string> {
  const download = page.waitForEvent("download");
  await page.getByTestId(button).click();
  return readFileSync(await (await download).path(), "utf8");
}

describe("which mouthpiece gives which gap in which instrument", () => {
  it("by keyboard alone: the demo's tables, a cell read, a diameter typed, the matrix walked, an impossible one in words", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await tabTo(page, "begin-demo");
    await page.keyboard.press("Enter");
    await cell(page, 4, 11).waitFor();
    for (const [m, i] of [
      [0, 6],
      [3, 10],
      [4, 8],
    ] as const)
      await expect.poll(() => gapIn(page, m, i)).toBe(demo.cells[m][i].fit!.gapMm!.toFixed(2));
    await expect.poll(() => remark(page, 2, 9)).toBe("measure the receiver depth");

    await tabTo(page, "Brindle 1: shank end diameter");
    await page.keyboard.type("9.68");
    const typed = fitMatrix(
      [{ ...mouthpieces[0], dimensions: { ...mouthpieces[0].dimensions, shankEndDiameterMm: 9.68 } }],
      instruments,
    );
    await expect.poll(() => gapIn(page, 0, 6)).toBe(typed.cells[0][6].fit!.gapMm!.toFixed(2));
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(page)).toBe("Brindle 2: shank end diameter");
    await page.keyboard.type("12");
    await page.keyboard.press("Tab");
    await expect.poll(() => remark(page, 1, 0)).toBe("does not enter");
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.type("-3");
    await page.keyboard.press("Tab");
    await page.getByText("The shank end diameter is -3 mm; give a length from 0.1 mm to 1000 mm.").waitFor();
    await expect.poll(() => remark(page, 1, 0)).toBe("impossible");
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.type("nine");
    await page.keyboard.press("Tab");
    await page.getByText(/"nine" is not a length/).waitFor();
    await expect.poll(() => remark(page, 1, 0)).toBe("measure the shank end diameter");

    await tabTo(page, "0 0");
    for (const key of ["ArrowRight", "ArrowRight", "ArrowDown", "ArrowDown", "ArrowLeft"])
      await page.keyboard.press(key);
    await expect.poll(() => focused(page)).toBe("2 1");
    await page.getByRole("heading", { name: "Fenwood 5 in Kettle Lane 2" }).waitFor();
    await expect
      .poll(() => page.getByTestId("pair-gap").innerText())
      .toBe(`${demo.cells[2][1].fit!.gapMm!.toFixed(2)} mm`);
    await expect
      .poll(() => page.getByTestId("pair-words").innerText())
      .toContain(fitWords(demo.cells[2][1].fit!, "mm")[0]);
    await page.keyboard.press("Control+End");
    await expect.poll(() => focused(page)).toBe("4 11");
    await page.keyboard.press("Home");
    await expect.poll(() => focused(page)).toBe("4 0");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowUp");
    await page.getByRole("heading", { name: "Brindle 2 in Kettle Lane 1" }).waitFor();
    await expect
      .poll(() => page.getByTestId("pair-words").innerText())
      .toMatch(/^Unknown: measure the shank end diameter\.\s+Brindle 2: "nine" is not a length/);
    expectQuiet(visited);
  });

  it("holds gaps against the preferred one, and takes the setup's", async () => {
    const { page } = await open();
    await loadDemo(page);
    await page.getByTestId("prefer-yours").click();
    const held = fitMatrix(mouthpieces, instruments, { preferredMm: 2.5 });
    await expect
      .poll(() => cell(page, 0, 0).innerText())
      .toContain(`▲ +${held.cells[0][0].fromPreferredMm!.toFixed(2)}`);
    await expect.poll(() => cell(page, 0, 6).innerText()).toContain("≈");
    expect(await cell(page, 1, 7).innerText()).not.toContain("≈");
    await field(page, "Preferred gap").fill("wide");
    await page.getByText(/"wide" is not a length/).waitFor();
    expect(await cell(page, 0, 0).innerText()).not.toContain("▲");
    await field(page, "Preferred gap").fill("-1");
    await page.getByText(/The preferred gap is not a length from 0/).waitFor();
  });

  it("keeps tables over a reload, means the same in inches, and undoes step by step", async () => {
    const visited = await open();
    const { page } = visited;
    await loadDemo(page);
    await field(page, "Brindle 1: shank end diameter").fill("9.68");
    await field(page, "Brindle 1: shank end diameter").press("Tab");
    const before = await gapIn(page, 0, 0);
    await page.getByRole("button", { name: /inch/ }).click();
    const inches = (Number(before) / 25.4).toFixed(3);
    await expect.poll(() => gapIn(page, 0, 0)).toBe(inches);
    await expect.poll(() => field(page, "Brindle 1: shank end diameter").inputValue()).toBe("9.68 mm");
    expect(await page.getByTestId("spread-words").innerText()).not.toContain("mm");
    await field(page, "Brindle 1: shank end diameter").fill("0.381");
    await field(page, "Brindle 1: shank end diameter").press("Tab");
    await page.getByRole("button", { name: /millimetres/ }).click();
    await expect.poll(() => field(page, "Brindle 1: shank end diameter").inputValue()).toBe("0.381 in");
    await keptInTab(page, /"0\.381"/);
    await page.reload();
    await cell(page, 4, 11).waitFor();
    await expect.poll(() => field(page, "Brindle 1: shank end diameter").inputValue()).toBe("0.381 in");
    await expect.poll(() => gapIn(page, 3, 10)).toBe(demo.cells[3][10].fit!.gapMm!.toFixed(2));
    await page.getByRole("button", { name: "Remove Brindle 2" }).click();
    await expect.poll(() => cell(page, 4, 0).count()).toBe(0);
    await page.getByRole("button", { name: /^Undo/ }).click();
    await cell(page, 4, 11).waitFor();
    expectQuiet(visited);
  });

  it("answers a broken table with its lines, and takes a good one in one undo step", async () => {
    const visited = await open();
    const { page } = visited;
    await loadDemo(page);
    await choose(page, "open-instruments", "broken.csv", "name,depth (mm)\nA,deep\nB,24\nB,25\n");
    const report = page.getByTestId("report-instruments");
    await report.waitFor();
    await expect
      .poll(() => report.innerText())
      .toMatch(
        /broken\.csv was not taken[\s\S]*line 2: "depth \(mm\)": "deep"[\s\S]*line 4: "B" is here twice/,
      );
    await expect.poll(() => gapIn(page, 0, 0)).toBe(demo.cells[0][0].fit!.gapMm!.toFixed(2));
    await choose(
      page,
      "open-instruments",
      "good.csv",
      "name,mouth diameter (in),taper,depth (in)\nA,0.425,1:20,0.97\nB,0.426,1:20,\n",
    );
    await report
      .getByText(
        /2 instruments read from good\.csv: receiver mouth diameter 10\.80 mm to 10\.82 mm; .*\(1 unknown\)/,
      )
      .waitFor();
    await expect.poll(() => cell(page, 0, 2).count()).toBe(0);
    await page.getByRole("button", { name: /^Undo/ }).click();
    await cell(page, 4, 11).waitFor();
    expectQuiet(visited);
  });

  it("saves what the bench writes: the matrix and the tables", async () => {
    const { page } = await open();
    await loadDemo(page);
    expect(await saved(page, "save-matrix")).toBe(fitMatrixCsv(demo));
    expect(await saved(page, "save-instruments")).toBe(instrumentsCsv(instruments));
  });

  it("takes a table pasted from a spreadsheet, and adds and removes rows", async () => {
    const { page } = await open();
    await page.getByTestId("begin-setup").click();
    await expect.poll(() => gapIn(page, 0, 0)).toBe("2.50");
    await field(page, "This setup's mouthpiece: name").focus();
    await page.evaluate(() =>
      navigator.clipboard.writeText("name\tend diameter (mm)\ttaper\nX\t9,66\t0.05\nY\t9.70\t\n"),
    );
    await page.keyboard.press("Control+v");
    await page
      .getByTestId("report-mouthpieces")
      .getByText(/2 mouthpieces read from what was pasted/)
      .waitFor();
    await expect.poll(() => remark(page, 1, 0)).toBe("measure the shank taper");
    await page.getByTestId("add-mouthpiece").click();
    await expect.poll(() => focused(page)).toBe("New mouthpiece: name");
    await page.keyboard.type("X");
    await page.keyboard.press("Tab");
    await page.getByText('"X" is here twice; give each its own name.').waitFor();
  });

  it("puts a pair into the setup in one step, and refuses one that makes no instrument", async () => {
    const visited = await open();
    const { page } = visited;
    await loadDemo(page);
    await cell(page, 1, 7).click();
    await page.getByTestId("use-pair").click();
    await page.getByTestId("message").getByText("Brindle 2 in Kettle Lane 8 is in the setup now").waitFor();
    const gap = demo.cells[1][7].fit!.gapMm!.toFixed(2);
    await page.getByTestId("task-explore").click();
    await page
      .getByTestId("gap-value")
      .filter({ hasText: `${gap} mm` })
      .waitFor();
    await page.keyboard.press("Control+z");
    await page.getByTestId("gap-value").filter({ hasText: "5.04 mm" }).waitFor();
    await page.getByTestId("task-fit").click();
    // a shank thinner than its bore
    await field(page, "Kettle Lane 1: receiver mouth diameter").fill("9");
    await field(page, "Brindle 1: shank end diameter").fill("8");
    await field(page, "Brindle 1: shank end diameter").press("Tab");
    await cell(page, 0, 0).click();
    await page.getByTestId("use-pair").click();
    await page
      .getByTestId("pair-refused")
      .getByText(/cannot be an instrument.*leaves no wall around the bore/)
      .waitFor();
    expectQuiet(visited);
  });

  it("says why the gaps differ, for one mouthpiece, one instrument, all", async () => {
    const { page } = await open();
    await loadDemo(page);
    const words = page.getByTestId("spread-words");
    await expect.poll(() => words.innerText()).toBe(spreadWords(demo.byMouthpiece[0], "mm"));
    await expect
      .poll(() => page.getByTestId("sensitivities").innerText())
      .toMatch(/0\.01 mm more receiver mouth diameter makes 0\.20 mm less gap/);
    await page.getByTestId("spread-of").selectOption({ label: "Old Post Horn" });
    await words.filter({ hasText: spreadWords(demo.byMouthpiece[4], "mm") }).waitFor();
    await page.getByRole("heading", { name: /^Old Post Horn in/ }).waitFor();
    await page.getByRole("button", { name: "one instrument" }).click();
    await words.filter({ hasText: spreadWords(demo.byInstrument[0], "mm") }).waitFor();
    await page.getByRole("button", { name: "all pairs" }).click();
    await words.filter({ hasText: spreadWords(demo.overall, "mm") }).waitFor();
  });

  it("takes fifty by fifty, and prints gaps and spread on one page", async () => {
    const { page } = await open();
    await loadDemo(page);
    await still(page);
    const pdf = await page.pdf({ format: "A4", printBackground: true, path: `${screenshots}fit.pdf` });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)!.length).toBe(1);
    const rows = (head: string, line: (n: number) => string) =>
      `${head}\n${Array.from({ length: 50 }, (_, n) => line(n)).join("\n")}\n`;
    await choose(
      page,
      "open-mouthpieces",
      "m.csv",
      rows("name,end diameter,taper", (n) => `m${n},${9.6 + n / 500},0.05`),
    );
    await choose(
      page,
      "open-instruments",
      "i.csv",
      rows("name,mouth diameter,taper,depth", (n) => `i${n},${10.7 + n / 500},0.05,24.5`),
    );
    await cell(page, 49, 49).waitFor();
    await expect.poll(() => gapIn(page, 49, 49)).toBe("2.50");
    // one after the other, faster than such a table is drawn
    for (const name of ["m47", "m48", "m49"]) await field(page, `${name}: shank end diameter`).fill("9.7");
    for (const m of [47, 48, 49]) await expect.poll(() => gapIn(page, m, 49)).toBe("2.54");
  });
});

describe("the fit for everyone", () => {
  it("is sound at every width and in every colour, empty and filled", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expectSoundEverywhere(page, "fit-empty");
    await loadDemo(page);
    await page.getByTestId("prefer-yours").click();
    await field(page, "Fenwood 5: shank taper").fill("steep");
    await field(page, "Fenwood 5: shank taper").press("Tab");
    await cell(page, 4, 4).click();
    await page.getByRole("button", { name: "Close this message" }).click();
    await expectSoundEverywhere(page, "fit");
    expectQuiet(visited);
  });
});
