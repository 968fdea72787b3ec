import { writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { NO_NOTES } from "../../../src/app/state/notes/notes.ts";
import { FIRST_VIEW } from "../../../src/app/state/state.ts";
import { documentOf } from "../../../src/app/state/store.ts";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import { trialFinding } from "../../../src/trial/finding.ts";
import type { Trial } from "../../../src/trial/trial.ts";
import { plusMinus, roundedLength } from "../../../src/units/uncertainLength.ts";
import { noteText } from "../../../src/words/instruments.ts";
import { classQuestions } from "../../../src/words/report/classQuestions.ts";
import { trialSentence } from "../../../src/words/trial/sentence.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, screenshots, useBrowser, type VisitOptions } from "../browser.ts";
import { focused, tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { kept, plan, playAll, seal } from "../trial/trialByKeys.ts";
import { readPdf, withoutSpaces } from "./pdf.ts";
import { tableRows } from "./reportRows.ts";

const { visit } = useBrowser();

const MODEL_MS = 90_000;
const status = (page: Page) => page.getByTestId("sheet-status");
const isReady = (page: Page) =>
  status(page)
    .filter({ hasText: /^Ready/ })
    .waitFor({ timeout: MODEL_MS });
const words = (page: Page, name: string) => page.getByTestId(`words-${name}`).locator("textarea");
const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();

async function open(options: VisitOptions = {}) {
  const visited = await visit({ ...options, hash: "#sheet" });
  await isReady(visited.page);
  return visited;
}

async function printed(page: Page, name: string) {
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  writeFileSync(`${screenshots}sheet-${name}.pdf`, pdf);
  return readPdf(pdf);
}

/** Front and back of a report. */
const both = (pages: Awaited<ReturnType<typeof printed>>): string => pages.map(({ text }) => text).join("");

/** What is printed for the demo's two gaps, on paper of this size. */
async function expectReport(
  page: Page,
  pages: Awaited<ReturnType<typeof printed>>,
  widthMm: number,
  heightMm: number,
): Promise<void> {
  expect(pages.length).toBe(2);
  for (const page of pages) {
    expect(page.widthMm).toBeCloseTo(widthMm, 0);
    expect(page.heightMm).toBeCloseTo(heightMm, 0);
    expect(page.text).toContain(withoutSpaces(demo().name));
    expect(page.text).toMatch(/record[0-9a-f]{16}/);
    expect(page.text).not.toMatch(/NaN|Infinity|undefined|\{|Explore/);
  }
  const [front, back] = pages;
  // what a player reads in a minute, and nothing of what it rests on
  const forThePlayer = [
    "2.50 ± 0.07 mm",
    "0.0984 ± 0.0028 in",
    "No change recommended",
    "shoulder gap",
    "No blind trial was played",
    "By the model, from 2.50 mm to 5.04 mm (what if): Opening the gap by 2.54 mm",
    "Slotting:",
    "Backpressure:",
    "Can it be undone? Nothing is changed",
  ];
  for (const text of forThePlayer) expect(front.text).toContain(withoutSpaces(text));
  const forTheTechnician = [
    "2.50 mm to 5.04 mm (what if)",
    ...tableRows(demo(), 2.5, 5.04),
    "Assumed, from a stand-in:",
    "Cautions.",
    "Method.",
    "mode matching",
  ];
  for (const text of forTheTechnician) expect(back.text).toContain(withoutSpaces(text));
  for (const text of ["cents or", "mode matching", "Cautions.", "Pull "]) {
    expect(front.text).not.toContain(withoutSpaces(text));
  }
  // no sentence twice
  const sentences = pages.flatMap(
    ({ lines }) => lines.replace(/\s+/g, " ").match(/[A-Z][^.:]{25,}\./g) ?? [],
  );
  const repeated = sentences.filter((one, i) => sentences.indexOf(one) !== i);
  expect(repeated.filter((one) => !one.startsWith("Whether this player"))).toEqual([]);
  // no type of eight points
  const sizes = await page
    .locator("body > annulus-paper")
    .evaluate((paper) =>
      [...paper.shadowRoot!.querySelectorAll(".page :is(p, li, td, th, dt, dd, h2)")].map((element) =>
        Number.parseFloat(getComputedStyle(element).fontSize),
      ),
    );
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12 - 0.01);
}

/** Too long a text is refused in words, and prints nothing. */
async function expectNeverTooLong(page: Page): Promise<void> {
  await words(page, "found").fill(Array.from({ length: 260 }, (_, i) => `word${i} and {gap}`).join(", "));
  await page.keyboard.press("Tab");
  await status(page)
    .filter({ hasText: /The words are \d+ lines too long for its page: shorten “Note by note”/ })
    .waitFor();
  await expect.poll(() => page.getByTestId("print").isDisabled()).toBe(true);
  const pages = await printed(page, "too-long");
  expect(pages.length).toBe(1);
  expect(pages[0].text).toMatch(/^Notprinted.*linestoolong/);
  await press(page, "Back to the proposal: Note by note");
  await isReady(page);
  expect((await printed(page, "again"))[0].text).toContain("Recommendation");
}

describe("the technician's sheet", () => {
  it("waits for the model before it prints; is a front and a back of A4 and of Letter, its figures the model's own, also in inches; and leaves nothing behind in other tasks", async () => {
    const visited = await visit({ hash: "#sheet" });
    const { page } = visited;
    await status(page)
      .filter({ hasText: /^Still to come/ })
      .waitFor();
    await expect.poll(() => page.getByTestId("print").isDisabled()).toBe(true);
    await isReady(page);
    for (const [paper, widthMm, heightMm] of [
      ["A4", 210, 297],
      ["Letter", 215.9, 279.4],
    ] as const) {
      await press(page, paper);
      await isReady(page);
      await expectReport(page, await printed(page, paper), widthMm, heightMm);
    }

    await page.getByRole("button", { name: /inch/ }).click();
    await page.getByTestId("paper").getByText("0.098 in to 0.198 in (what if)", { exact: true }).waitFor();
    await isReady(page);
    const text = both(await printed(page, "inch"));
    for (const part of ["0.0984 ± 0.0028 in", "2.50 ± 0.07 mm", "0.198 in", "0.098 in to 0.198 in (what if)"])
      expect(text).toContain(withoutSpaces(part));

    await expect.poll(() => page.locator("body > annulus-paper").count()).toBe(1);
    await page.getByTestId("task-explore").click();
    await page.getByTestId("gap-value").waitFor();
    await expect.poll(() => page.locator("body > annulus-paper").count()).toBe(0);
    expectQuiet(visited);
  });

  it("takes a technician's words, keeps the numbers the record's, goes back to the proposal, and never takes a second page nor clips", async () => {
    const visited = await open();
    const { page } = visited;
    await words(page, "recommendation").fill("Try {told} for a week.");
    await words(page, "recommendation").press("Tab");
    const paper = page.getByTestId("paper");
    await paper.getByText("Try 5.04 mm for a week.").waitFor();
    await words(page, "recommendation").fill("Try {recomended}.");
    await page.getByTestId("sheet-title").getByRole("textbox").focus();
    await page.getByText("There is no figure {recomended}: take one from the list.").waitFor();
    await expect.poll(() => status(page).innerText()).toMatch(/A figure in “Recommendation” is not one/);
    await expect.poll(() => page.getByTestId("print").isDisabled()).toBe(true);
    const [held] = await printed(page, "held");
    expect(held.text).toMatch(/^Notprinted/);

    // the number follows the record, the words stay
    await words(page, "recommendation").fill("Try ");
    await page.getByTestId("words-recommendation").getByText("Put in a figure").click();
    await page.getByRole("button", { name: /^\{told\} / }).click();
    await expect.poll(() => words(page, "recommendation").inputValue()).toBe("Try {told}");
    await paper.getByText("Try 5.04 mm").waitFor();
    await page.evaluate(() => {
      location.hash = "#explore";
    });
    await page.getByTestId("gap-field").fill("3 mm");
    await page.getByTestId("gap-field").press("Enter");
    await page.evaluate(() => {
      location.hash = "#sheet";
    });
    await paper.getByText("Try 3.00 mm").waitFor();
    await page.reload();
    await paper.getByText("Try 3.00 mm").waitFor();
    await press(page, "Back to the proposal: Recommendation");
    await paper.getByText("No change recommended: the gap is 2.50 mm").waitFor();
    await words(page, "noGap").fill("");
    await paper.getByText("No gap at all blows freer").waitFor({ state: "detached" });
    await expectNeverTooLong(page);
    expectQuiet(visited);
  });

  it("recommends what is planned, counted from the measured gap, wherever the slider stands", async () => {
    const visited = await open();
    const { page } = visited;
    await page
      .getByTestId("paper")
      .getByTestId("paper-recommended")
      .filter({ hasText: "No change" })
      .waitFor();
    await page.getByTestId("task-cut").click();
    await page.getByRole("textbox", { name: "Gap to reach", exact: true }).fill("2 mm");
    await page.keyboard.press("Enter");
    await page.getByTestId("task-explore").click();
    await page.getByTestId("gap-which").filter({ hasText: "What if" }).waitFor();
    await page.getByTestId("gap-field").fill("3.3 mm");
    await page.getByTestId("gap-field").press("Enter");
    await page.getByRole("button", { name: "Compare with this" }).click();
    await page.getByTestId("task-sheet").click();
    await page.getByTestId("paper").getByTestId("paper-recommended").filter({ hasText: "2.00 mm" }).waitFor();
    await isReady(page);
    const text = both(await printed(page, "planned"));
    for (const part of ["2.50 mm to 2.00 mm (planned)", ...tableRows(demo(), 2.5, 2)])
      expect(text).toContain(withoutSpaces(part));
    expect(text).not.toContain("3.30");
    // and Explore has kept its own
    await page.getByTestId("task-explore").click();
    await page.getByTestId("gap-value").filter({ hasText: "3.30 mm" }).waitFor();
    expectQuiet(visited);
  });

  it("has room for the work of every way to another gap, on either paper", async () => {
    const { page } = await visit({ hash: "#cut" });
    for (const [target, choose, reverse] of [
      ["2 mm", "Choose: turn the shank's taper down", "Thiscannotbeundone"],
      ["3.5 mm", "Choose: shorten the shank's end", "Thiscannotbeundone"],
      ["3.5 mm", "Choose: sleeve or plate the shank", "Thiscanbeundone"],
    ]) {
      await page.getByRole("textbox", { name: "Gap to reach", exact: true }).fill(target);
      await page.keyboard.press("Enter");
      await press(page, choose);
      await page.getByTestId("task-sheet").click();
      const way = choose.replace("Choose: ", "");
      // ready was also what stood here before: the paper follows a little later
      await page.getByTestId("paper").getByText(way).first().waitFor({ state: "attached" });
      for (const paper of ["A4", "Letter"]) {
        await press(page, paper);
        await isReady(page);
        const pages = await printed(page, `${way.slice(0, 5)}-${paper}`);
        expect(pages.length).toBe(2);
        expect(both(pages)).toContain(withoutSpaces(way));
        expect(pages[0].text).toContain(reverse);
        expect(pages[1].text).toContain("Cautions.");
        expect(pages[0].text).toContain(target === "2 mm" ? "2.00mm" : "3.50mm");
      }
      await page.getByTestId("task-cut").click();
    }
  });
});

describe("a blind trial on the sheet", () => {
  const items = [2, 2.5, 3].map((gapMm) => ({ name: "", gapMm }));
  const liked = [
    [91, 44, 20],
    [86, 52, 17],
    [93, 39, 25],
    [88, 47, 12],
    [90, 41, 22],
  ];
  const trial = (opened: Trial["opened"]): Trial => ({
    id: "t",
    player: "K.",
    items,
    passages: "",
    difference: 20,
    opened,
    turns: liked.flatMap((ratings, repeat) =>
      ratings.map((preference, item) => ({
        code: `${repeat}${item}`,
        item,
        remark: "",
        ratings: { hold: 50, ease: 50, evenness: 50, preference },
      })),
    ),
  });

  it("is told as it was found once it is opened, and not before", async () => {
    const { page } = await visit();
    const keep = (opened: Trial["opened"]) => {
      const notes = { ...NO_NOTES, trial: { ...NO_NOTES.trial, trials: [trial(opened)], shown: "t" } };
      const document = { ...documentOf(demo(), notes), gapMm: 2 };
      return JSON.stringify({ document: writeDocument(document), view: FIRST_VIEW });
    };
    const visitSheet = async (kept: string) => {
      await page.evaluate((text) => {
        for (const shelf of [localStorage, sessionStorage]) shelf.setItem("annulus-autosave", text);
        location.hash = "#sheet";
      }, kept);
      await page.reload();
      await isReady(page);
      return (await printed(page, "trial"))[0].text;
    };
    expect(await visitSheet(keep("sealed"))).toContain("Noblindtrialwasplayed");
    const finding = trialFinding(trial("complete"))!;
    expect(finding.isDecided).toBe(true);
    const text = await visitSheet(keep("complete"));
    expect(text).toContain(
      withoutSpaces(`Blind trial. Played 5 times each: ${trialSentence(finding, "mm")}`),
    );
    expect(text).toContain(withoutSpaces(`to ${finding.preferredGapMm!.toFixed(2)} mm`));
    expect(text).toContain(withoutSpaces("That is the gap the player preferred, blind."));
  });
});

describe("a whole job", () => {
  const depthMm = [24.53, 24.54, 24.56];
  const insertionMm = [22.01, 21.98, 22.02];
  const measured = gapFromReadings({
    depthMm,
    insertionMm,
    depthTool: { resolutionMm: 0.01 },
    sameTool: true,
  });
  const expandedMm = (measured.intervalMm![1] - measured.intervalMm![0]) / 2;

  /** To the task's link, by Tab from the top of the page. */
  async function goTo(page: Page, task: string): Promise<void> {
    await tabTo(page, `task-${task}`, "Shift+Tab");
    await page.keyboard.press("Enter");
  }

  async function typeInto(page: Page, label: string, text: string): Promise<void> {
    if ((await focused(page)) !== label) await tabTo(page, label);
    await page.keyboard.press("Control+a");
    await page.keyboard.type(text);
  }

  it("by keyboard alone: from the readings to the PDF, which says what was typed and what the model found", async () => {
    const visited = await visit({ hash: "#jobs" });
    const { page } = visited;
    const recorded = { Title: "Job 41, one player's gap", "Player (an alias will do)": "second chair" };
    await expect.poll(() => page.getByTestId("new-demo").isEnabled(), { timeout: MODEL_MS }).toBe(true);
    await tabTo(page, "new-demo");
    await page.keyboard.press("Enter");
    await page.getByTestId("open-job").filter({ hasText: "job" }).waitFor();
    for (const [label, text] of Object.entries(recorded)) await typeInto(page, label, text);
    await page.keyboard.press("Tab");
    await page.getByTestId("open-job").filter({ hasText: recorded.Title }).waitFor();

    await goTo(page, "measure");
    await page.evaluate(() => {
      window.print = () => {
        document.title = "printed";
      };
    });
    await page.getByRole("textbox", { name: "depth reading 1" }).waitFor();
    await tabTo(page, "depth reading 1");
    for (const text of [...depthMm, "", ...insertionMm, "", 0.01]) {
      if (text !== "") await page.keyboard.type(`${text}`);
      await page.keyboard.press("Enter");
    }
    await tabTo(page, "use-gap");
    await page.keyboard.press("Enter");
    await page.getByTestId("message").waitFor();

    await goTo(page, "cut");
    await page.getByTestId("present-gap").waitFor();
    await typeInto(page, "Gap to reach", "2.0");
    await page.keyboard.press("Enter");
    await tabTo(page, "Choose: turn the shank's taper down");
    await page.keyboard.press("Enter");
    await page.getByTestId("confirm").waitFor();
    await tabTo(page, "confirm");
    await page.keyboard.press("Space");
    await page.locator("annulus-cut").getByTestId("card").waitFor();

    // three repeats that agree wholly: one in 36 by chance
    await goTo(page, "trial");
    await page.getByRole("textbox", { name: "gap 1", exact: true }).waitFor();
    await plan(page, ["1.5", "2.0", "2.5"], 3);
    const trial = await seal(page);
    await playAll(page, trial, (at) => [4, 9, 3][trial.turns[at].item]);
    await page.getByText("All 9 turns are rated").waitFor();
    await tabTo(page, "open-trial");
    await page.keyboard.press("Enter");
    await expect.poll(async () => (await kept(page)).opened).toBe("complete");
    const finding = trialFinding(await kept(page))!;
    expect(finding.isDecided).toBe(true);
    expect(finding.preferredGapMm).toBeCloseTo(2, 0);

    await goTo(page, "sheet");
    await status(page).waitFor();
    const typed = {
      Date: "3 March",
      Workshop: "Kettle Lane",
      Technician: "T. Hollis",
      Mouthpiece: "unmarked, 16.4",
    };
    for (const [label, text] of Object.entries(typed)) await typeInto(page, label, text);
    await tabTo(page, "Recommendation");
    await page.keyboard.press("Control+End");
    await page.keyboard.type(" Collect on Friday; shift of 4: {shift4}.");
    await isReady(page);
    await tabTo(page, "print", "Shift+Tab");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.title()).toBe("printed");

    const pages = await printed(page, "whole-job");
    expect(pages.length).toBe(2);
    const file = writeSetup(demo()) as any;
    const setup = readSetup({
      ...file,
      receiver: { ...file.receiver, depth: measured.depthMm },
      mouthpiece: { ...file.mouthpiece, insertion: measured.insertionMm },
    });
    const rows = tableRows(setup, measured.gapMm, 2);
    const shift4 = /^([+−]?\d+\.\d)/.exec(rows[2].slice(noteText(4, "b-flat-trumpet").length))![1];
    const expected = [
      ...Object.values(recorded),
      ...Object.values(typed),
      plusMinus(measured.gapMm, expandedMm, "mm"),
      plusMinus(measured.gapMm, expandedMm, "in"),
      `3 and 3 readings: ${roundedLength(measured.gapMm, expandedMm, "mm")}`,
      "2.00 mm",
      "turn the shank's taper down",
      "This cannot be undone",
      `Blind trial. Played 3 times each: ${trialSentence(finding, "mm")}`,
      `Collect on Friday; shift of 4: ${shift4} cents.`,
      ...rows,
    ];
    for (const text of expected) expect(both(pages)).toContain(withoutSpaces(text));
    expectQuiet(visited);
  }, 360_000);
});

/** One chart, three sentences and three questions, with the answers on a second page, on its side or upright. */
async function expectClassSheet(page: Page): Promise<void> {
  const changes = tableRows(demo(), 2.5, 5.04).length;
  expect(changes).toBe(9);
  for (const [chart, axis] of [
    ["height", "change of peak height, dB"],
    ["spacing", "change of spacing, cents"],
    ["curves", "frequency, Hz"],
  ]) {
    await page.getByTestId("sheet-chart").selectOption(chart);
    // ready was also what stood here before: the paper follows a little later
    await page.getByTestId("paper").getByText(axis).first().waitFor({ state: "attached", timeout: MODEL_MS });
    await isReady(page);
    const [only, answers, ...others] = await printed(page, `class-${chart}`);
    expect(others).toEqual([]);
    const asked = classQuestions(chart as "height" | "spacing" | "curves").map(({ question }) =>
      withoutSpaces(question),
    );
    expect(asked).toHaveLength(3);
    for (const question of asked) {
      expect(only.text).toContain(question);
      expect(answers.text).toContain(question);
    }
    // the pupils' page has no answer, the teacher's all of them, with their figures
    expect(only.text).not.toContain("assumedtonotice");
    expect(answers.text).toMatch(
      /insidethereceiver.*assumedtonotice(3\.5cents|1dB).*instrument:toosmalltonotice/,
    );
    expect(answers.text).toMatch(/[−+]\d[\d.]*to[−+]\d/);
    expect(only.widthMm).toBeCloseTo(297, 0);
    expect(only.text).toContain(withoutSpaces(axis));
    expect(only.text).toContain("hereitgoesfrom2.50mmto5.04mm(whatif)");
    expect(only.text).toMatch(/1\..*2\..*3\..*answerforthisinstrument:toosmalltonotice/);
  }
  await press(page, "Upright");
  await press(page, "Letter");
  await expect
    .poll(async () => (await printed(page, "class-upright"))[0].heightMm, { timeout: MODEL_MS })
    .toBeCloseTo(279.4, 0);
  expect((await printed(page, "class-upright")).length).toBe(2);
}

describe("the sheet for everyone", () => {
  it("is sound at every width and in every colour, for a player and for a class, with a chart, three questions and their answers", async () => {
    const visited = await open();
    const { page } = visited;
    await expectSoundEverywhere(page, "sheet");
    await page.getByTestId("words-found").getByText("Put in a figure").click();
    await expectSoundEverywhere(page, "sheet-figures");
    await press(page, "For the class");
    await isReady(page);
    await expectSoundEverywhere(page, "sheet-class");
    await page.emulateMedia({ colorScheme: "dark" });
    const white = await page
      .getByTestId("paper")
      .locator(".page")
      .first()
      .evaluate((page) => getComputedStyle(page).backgroundColor);
    expect(white).toBe("rgb(255, 255, 255)");
    await page.emulateMedia({ colorScheme: "light" });
    await expectClassSheet(page);
    expectQuiet(visited);
  });
});
