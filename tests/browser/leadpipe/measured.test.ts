import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { bellTrustSteps } from "../../../src/study/compare/bellTrust.ts";
import { modelCurve, overlay } from "../../../src/study/measured/measured.ts";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import { syntheticMeasurement } from "../../../src/study/measured/syntheticMeasurement.ts";
import { noteText } from "../../../src/words/instruments.ts";
import { signed } from "../../../src/words/numbers.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser, type Visit } from "../browser.ts";
import { tabTo } from "../keyboard.ts";
import { expectSoundEverywhere, expectWithinEdges } from "../soundness.ts";
import { keptInTab, still } from "../still.ts";

const { visit } = useBrowser();

/** The invented measurement beside the demo, as the study has it. */
const { peaks } = overlay(demo(), readMeasured(syntheticMeasurement(demo())));
const [lowest] = peaks;

async function open(options: Parameters<typeof visit>[0] = {}): Promise<Visit> {
  const visited = await visit({ hasModel: false, ...options, hash: "#compare" });
  await visited.page.getByTestId("measured-invent").waitFor();
  return visited;
}

const text = (page: Page) => page.getByTestId("measured-text");
const box = (page: Page, part: string) => page.getByTestId(`measured-${part}`).getByRole("textbox");
const laidOver = (page: Page): Promise<void> =>
  page.getByTestId("measured-peaks").waitFor({ timeout: 30_000 });
const fitted = (page: Page): Promise<void> => page.getByTestId("fit-found").waitFor({ timeout: 60_000 });

async function invented(page: Page): Promise<void> {
  await page.getByTestId("measured-invent").click();
  await page
    .getByTestId("measured-found")
    .getByText(/841 frequencies from 60 to 900 Hz/)
    .waitFor();
}

/** Puts a file's text under the pointer and lets it go over the panel. */
const drop = (page: Page, name: string, content: string): Promise<void> =>
  text(page).evaluate(
    (place, [called, inside]) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([inside], called, { type: "text/csv" }));
      const event = new DragEvent("drop", { dataTransfer, bubbles: true, composed: true, cancelable: true });
      place.dispatchEvent(event);
    },
    [name, content],
  );

describe("a measured impedance on the page", () => {
  it("by keyboard alone: understood, overruled, held against the model, fitted, taken in, undone", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await tabTo(page, "measured-invent");
    await page.keyboard.press("Enter");
    const found = page.getByTestId("measured-found");
    await found.getByText(/841 frequencies from 60 to 900 Hz; magnitude \(linear\)/).waitFor();
    await expect.poll(() => text(page).inputValue()).toMatch(/^# Invented, nobody has measured it/);
    await expect
      .poll(() => page.getByTestId("measured-unit").locator("option:checked").innerText())
      .toBe("as found: MPa·s/m³");
    await expect.poll(() => page.getByTestId("measured-peaks").count()).toBe(0);
    await tabTo(page, "measured-take");
    await page.keyboard.press("Enter");
    await laidOver(page);
    const before = await page.getByTestId("measured-peaks").innerText();
    expect(peaks.length).toBeGreaterThanOrEqual(6);
    for (const { measured, cents, heightDb } of peaks)
      expect(before.split(/\s+/).join(" ")).toContain(
        `${measured!.frequencyHz.toFixed(2)} ${signed(cents!, 1)} ${signed(heightDb!, 2)}`,
      );
    expect(before).not.toMatch(/NaN|undefined|Infinity/);
    // a wrong unit makes the measurement a million times too weak: seen at once
    await tabTo(page, "measured-unit", "Shift+Tab");
    await page.keyboard.press("ArrowDown");
    const heights = page.getByTestId("measured-peaks");
    await heights.getByText(signed(lowest.heightDb! - 120, 2), { exact: true }).waitFor();
    await page.keyboard.press("Control+z");
    await heights.getByText(signed(lowest.heightDb!, 2), { exact: true }).first().waitFor();

    await tabTo(page, "fit-start");
    await page.keyboard.press("Enter");
    await fitted(page);
    await expect.poll(() => page.getByTestId("fit-judgement").getAttribute("data-judgement")).toBe("sound");
    // nothing stands out: the demo's bell has curved fronts
    const judged = await page.getByTestId("fit-judgement").innerText();
    expect(judged).toMatch(/What is left over (is the measurement’s noise\.|looks like noise)/);
    expect(judged).not.toMatch(/plane waves/);
    // the truth that the text's first lines tell: 0.6 mm wider, 1.1
    const [own, truth] = [gapMm(demo()), gapMm(demo()) + 0.6].map((mm) => mm.toFixed(1).replace(".", "\\."));
    const gap = await page.getByTestId("estimates").getByRole("row", { name: /^gap/ }).innerText();
    // all of the demo is assumed: the noise alone would tell a hundredth
    expect(gap).toMatch(new RegExp(`${own} mm\\s+${truth} mm\\s+0\\.0 mm\\s+1\\d\\.\\d mm`));
    await expect
      .poll(() => page.getByTestId("measured-impedance").locator("svg desc").textContent())
      .toMatch(/from the fitted one by 0\.\d+ dB/);
    await tabTo(page, "fit-candidate");
    await page.keyboard.press("Enter");
    await page
      .getByTestId("candidate-2")
      .getByText("fitted to invented measurement: wall-loss factor, gap")
      .waitFor();
    await page.keyboard.press("Control+z");
    await expect.poll(() => page.getByTestId("candidate-2").count()).toBe(0);
    expectQuiet(visited);
  });

  it("flags a fit whose left-over is far above the noise, and takes what is sound into the open setup", async () => {
    const { page } = await open();
    await invented(page);
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await box(page, "noise").fill("0.1");
    await box(page, "noise").press("Tab");
    await page.getByTestId("fit-start").click();
    await page.getByTestId("fit-judgement").getByText("The model does not fit this measurement.").waitFor();
    await expect
      .poll(() => page.getByTestId("fit-judgement").innerText())
      .toMatch(/Not to be trusted: .* times the measurement/);
    await box(page, "noise").fill("1 %");
    await box(page, "noise").press("Tab");
    await page.getByTestId("fit-start").click();
    await page
      .getByTestId("fit-judgement")
      .getByText(/^What is left over (is the measurement’s noise\.|looks like noise)/)
      .first()
      .waitFor();
    await page.getByTestId("fit-take").click();
    await page.getByText("What was fitted is in the open setup now.").waitFor();
    await page.getByText(/^Compared with 1 .* at its own gap of 3\.1\d mm/).waitFor();
    await page.keyboard.press("Control+z");
    await page
      .getByText(/^Compared with 1 .* at its own gap of 2\.50 mm · 0\.098 in, assumed, not measured/)
      .waitFor();
  });

  it("takes a dropped file, answers broken lines and wrong ranges in words, and keeps all over a reload", async () => {
    const visited = await open();
    const { page } = visited;
    await invented(page);
    const lines = (await text(page).inputValue()).split("\n");
    await drop(page, "bench.csv", lines.with(10, "67,strong,3").join("\n"));
    await page
      .getByTestId("measured-problems")
      .getByText(/^Line 11: "strong" in column 2 is no number/)
      .waitFor();
    await expect.poll(() => page.getByTestId("measured-take").isDisabled()).toBe(true);
    await page.getByText("bench.csv").waitFor();
    const semicolons = lines.slice(2).map((line) => line.replaceAll(",", ";").replaceAll(".", ","));
    await drop(page, "semicolons.csv", semicolons.join("\n"));
    await page
      .getByTestId("measured-found")
      .getByText(/semicolon between the columns, decimal comma/)
      .waitFor();
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await box(page, "from").fill("300");
    await box(page, "to").fill("305");
    await box(page, "to").press("Tab");
    await page.getByText(/Only 6 frequencies lie in between; give a range that holds 20 or more/).waitFor();
    await expect.poll(() => page.getByTestId("fit-start").isDisabled()).toBe(true);
    await box(page, "to").fill("700");
    await box(page, "to").press("Tab");
    // resonances 3 to 5; the sixth is cut off by the range's end
    await expect.poll(() => page.getByTestId("measured-peaks").locator("tbody tr").count()).toBe(3);
    await page.getByTestId("unknown-gap").uncheck();
    await keptInTab(page, /"unknowns":\[(?![^\]]*"gap")/);
    await page.reload();
    await laidOver(page);
    await expect.poll(() => box(page, "from").inputValue()).toBe("300");
    await expect.poll(() => page.getByTestId("unknown-gap").isChecked()).toBe(false);
    expect((await text(page).inputValue()).split("\n")).toHaveLength(semicolons.length);
    expectQuiet(visited);
  });

  it("takes a magnitude alone, and reads it in the unit that was probably meant at one press", async () => {
    const visited = await open();
    const { page } = visited;
    await invented(page);
    const rows = (await text(page).inputValue())
      .split("\n")
      .slice(3)
      .filter((row) => row !== "")
      .map((row) => row.split(",").slice(0, 2).join(","));
    // in MPa·s/m³, and said to be in Pa·s/m³
    await drop(page, "heights.csv", ["frequency (Hz),|Z| (Pa·s/m³)", ...rows].join("\n"));
    await page
      .getByTestId("measured-found")
      .getByText(/magnitude \(linear\) without a phase/)
      .waitFor();
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await page.getByText(/Without a phase, heights, frequencies and Q are compared/).waitFor();
    const guess = page.getByTestId("level-guess");
    await guess
      .getByText(/1(19\.9|20\.\d) dB below the model .* probably in MPa·s\/m³, not in Pa·s\/m³/)
      .waitFor();
    await page.getByTestId("level-read").click();
    await expect.poll(() => guess.count()).toBe(0);
    await expect
      .poll(() => page.getByTestId("measured-unit").locator("option:checked").innerText())
      .toBe("MPa·s/m³");
    await page
      .getByTestId("measured-peaks")
      .getByText(signed(lowest.heightDb!, 2), { exact: true })
      .first()
      .waitFor();
    await page.keyboard.press("Control+z");
    await guess.waitFor();
    expectQuiet(visited);
  });

  it("offers curved fronts where a measurement shows them: one press changes the bell and fits again", async () => {
    const visited = await visit({ hash: "#explore" });
    const { page } = visited;
    await page.getByTestId("edit-instrument").click();
    const form = page.locator("annulus-editor");
    await form.getByText("Model", { exact: true }).click();
    await form.getByLabel("Sound in the bell").selectOption("plane");
    await page.goto(`${visited.address}#compare`);
    await page.getByTestId("measured-invent").waitFor();
    const setup = readSetup(JSON.parse(readFileSync("shared/demo.setup.json", "utf8")));
    const frequencies = Float64Array.from({ length: 411 }, (_, i) => 80 + 2 * i);
    const { re, im } = modelCurve(withBell(setup, "multimodal"), frequencies, 3.1);
    const rows = Array.from(frequencies, (f, i) => `${f},${re[i]},${im[i]}`);
    await drop(page, "curved.csv", ["f (Hz),Re (Pa·s/m³),Im (Pa·s/m³)", ...rows].join("\n"));
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await page.getByTestId("fit-start").click();
    await fitted(page);
    const judgement = page.getByTestId("fit-judgement");
    await judgement.getByText(/This measurement shows it: fitted with curved fronts/).waitFor();
    await expect.poll(() => judgement.getAttribute("data-judgement")).toBe("wrong");
    await page.getByTestId("fit-curved").scrollIntoViewIfNeeded();
    await picture(page, "compare-curved-offered");
    await page.getByTestId("fit-curved").click();
    await expect.poll(() => judgement.getAttribute("data-judgement"), { timeout: 60_000 }).toBe("sound");
    await expect.poll(() => page.getByTestId("fit-curved").count()).toBe(0);
    await expect
      .poll(() => page.getByTestId("estimates").getByRole("row", { name: /^gap/ }).innerText())
      .toMatch(/\s3\.1/);
    expectQuiet(visited);
  });

  it("stops a fit when told to, and what was drawn stays", async () => {
    const { page } = await open();
    await invented(page);
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    for (const name of ["leadpipe-entry", "receiver-mouth", "temperature"])
      await page.getByTestId(`unknown-${name}`).check();
    await page.getByTestId("fit-start").click();
    await page.getByTestId("fit-stop").click();
    await page.getByTestId("fit-start").waitFor();
    await expect.poll(() => page.getByTestId("fit-found").count()).toBe(0);
    await expect.poll(() => page.getByTestId("measured-peaks").count()).toBe(1);
  });
});

/** Plane waves and curved fronts in the demo's bell, at its gap and a tenth of an inch more. */
function trusted() {
  const steps = bellTrustSteps(demo(), gapMm(demo()), gapMm(demo()) + 2.54);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value.modes;
  }
}

describe("the bell", () => {
  it("is chosen in the form, and everything on the page goes on with curved fronts", async () => {
    const visited = await visit({ hash: "#explore" });
    const { page } = visited;
    await page
      .getByTestId("headline")
      .getByText(/the gap by|gap compared with/)
      .first()
      .waitFor({ timeout: 30_000 });
    await page.getByTestId("edit-instrument").click();
    const form = page.locator("annulus-editor");
    await form.getByText("Model", { exact: true }).click();
    const bell = form.getByLabel("Sound in the bell");
    const goesOn = page.getByText(/In the bell’s flare the plane wave goes on/);
    await goesOn.waitFor();
    await bell.selectOption("plane");
    await goesOn.waitFor({ state: "hidden" });
    await bell.selectOption("multimodal");
    await goesOn.waitFor();
    const peaks = () => page.locator("svg.impedance-chart desc").first().textContent();
    await expect.poll(peaks, { timeout: 20_000 }).toMatch(/tallest/i);
    await page.goto(`${visited.address}#compare`);
    await page.getByTestId("add-invented").click();
    await page.getByTestId("whole").locator("thead th").nth(3).waitFor({ timeout: 60_000 });
    expect(await page.getByTestId("whole").innerText()).not.toMatch(/NaN|undefined|Infinity/);
    await page.getByTestId("bore-sensitivity").locator("svg.drawing").waitFor();
    expectQuiet(visited);
  });

  it("of plane waves is told how far it is off, and that a gap's effect hardly feels it", async () => {
    const visited = await open();
    const { page } = visited;
    await tabTo(page, "bell-work");
    await page.keyboard.press("Enter");
    const found = page.getByTestId("bell-found");
    await found.waitFor({ timeout: 30_000 });
    const trust = trusted();
    const most = trust.reduce((a, b) => (Math.abs(b.cents) > Math.abs(a.cents) ? b : a));
    const apart = Math.max(
      ...trust.map(({ planeChange, curvedChange }) => Math.abs(planeChange - curvedChange)),
    );
    await expect
      .poll(async () => (await found.innerText()).replace(/\s+/g, " "))
      .toContain(`off by up to ${signed(most.cents, 1)} cents, at ${noteText(most.n, "b-flat-trumpet")}.`);
    expect(await found.innerText()).toContain(`differ by ${apart.toFixed(2)} cents at most`);
    await expect.poll(() => page.getByTestId("bell-table").locator("tbody tr").count()).toBe(12);
    await expect
      .poll(() => page.locator("annulus-bell-trust svg desc").textContent())
      .toMatch(/too small to notice/);
    expectQuiet(visited);
  });
});

describe("measuring for everyone", () => {
  it("is sound at every width and in every colour", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await invented(page);
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await page.getByTestId("fit-start").click();
    await fitted(page);
    await page.getByTestId("bell-work").click();
    await page.getByTestId("bell-found").waitFor({ timeout: 30_000 });
    // the word that it is invented goes by itself
    await page.getByText("Synthetic: nobody has measured this.").waitFor({ state: "hidden" });
    await expectSoundEverywhere(page, "compare-measured");
    expectQuiet(visited);
  });

  it("prints the measurement's charts and tables without what is typed into", async () => {
    const { page } = await open();
    await page.getByTestId("add-invented").click();
    await page.getByTestId("whole").locator("thead th").nth(3).waitFor({ timeout: 30_000 });
    await invented(page);
    await page.getByTestId("measured-take").click();
    await laidOver(page);
    await page.setViewportSize({ width: 720, height: 1020 });
    await page.emulateMedia({ media: "print" });
    await still(page);
    await expect.poll(() => text(page).isVisible()).toBe(false);
    await expect.poll(() => page.getByTestId("measured-peaks").isVisible()).toBe(true);
    await expect.poll(() => page.getByTestId("whole").isVisible()).toBe(true);
    // what has nothing to say is not there
    for (const name of [
      "How far to trust the bell",
      "Design a leadpipe for a goal",
      "Stations of the mandrel",
      "Ranking",
    ])
      await expect.poll(() => page.getByRole("heading", { name }).isVisible()).toBe(false);
    await expectWithinEdges(page);
    await picture(page, "compare-print");
  });
});
