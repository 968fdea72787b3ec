/** The notebooks as built: every cell runs, nothing is asked of anybody else, figures are those of the tables. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { outcomeOf } from "../../notebooks/how-far-to-trust-this/check.ts";
import { CHECKS } from "../../notebooks/how-far-to-trust-this/checks.ts";
import { KINDS } from "../../notebooks/how-far-to-trust-this/cost.ts";
import { theGap } from "../../notebooks/how-far-to-trust-this/theGap.ts";
import { excessAt } from "../../notebooks/how-the-gap-is-modelled/limits.ts";
import { demo, mostGapMm, note, referenceGapMm } from "../../notebooks/paper/demo.ts";
import { mayGive, streamAcross } from "../../notebooks/resistance/layer.ts";
import { loudestLoss } from "../../notebooks/resistance/loud.ts";
import { gapEffect, playedPeaks } from "../../notebooks/resistance/peaks.ts";
import { entryMm, withEntry } from "../../notebooks/resistance/stream.ts";
import { thresholdsAt } from "../../notebooks/resistance/threshold.ts";
import { withEdge } from "../../notebooks/resistance/throat.ts";
import { followLeap } from "../../notebooks/slots/leap.ts";
import { blownOn, instrument, whatBegins } from "../../notebooks/slots/lipsOnColumn.ts";
import { drawings, tuned } from "../../notebooks/three-leadpipes/leadpipes.ts";
import { stageOf, tube } from "../../notebooks/why-the-gap-matters/stages.ts";
import { effectOf } from "../../notebooks/why-the-gap-matters/theGap.ts";
import { NOTEBOOKS } from "../../src/app/tasks/learn/contents.ts";
import { breathOf } from "../../src/study/blown/breath.ts";
import { blownInstruments, breathEffect } from "../../src/study/blown/breathEffect.ts";
import { gapStreamNumbers, nearestGapStream } from "../../src/study/blown/gapStream.ts";
import { levelLoss } from "../../src/study/blown/levelLoss.ts";
import { resistance } from "../../src/study/blown/resistance.ts";
import { resistanceChange } from "../../src/study/blown/resistanceChange.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { slotsAt } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { signed } from "../../src/words/numbers.ts";
import { RESISTANCE_FINDING } from "../../src/words/verdicts/findings.ts";
import { expectQuiet, screenshots, useBrowser, type Visit } from "./browser.ts";
import { expectSoundEverywhere } from "./soundness.ts";

const { visit } = useBrowser();
const at = (name: string) => `notebooks/${name}.html`;
const patience = { timeout: 100_000 };

/** All cells have an answer and none is being computed anew; nor is any long work under way, if that is waited for. */
async function settled(page: Page, withLongWork = true): Promise<void> {
  const isStill = () =>
    page.evaluate((awaitsWork) => {
      const cells = [...document.querySelectorAll<HTMLElement>(".observablehq--cell[data-state]")];
      const isBusy = awaitsWork && document.querySelector('main [aria-busy="true"]') !== null;
      return cells.length > 2 && !isBusy && cells.every(({ dataset }) => dataset.state !== "pending");
    }, withLongWork);
  // a cell may be about to ask the next: at one look after another
  let looks = 0;
  const stillFor = async () => {
    // what waits for a vote is not seen
    await page.evaluate(() => {
      for (const vote of document.querySelectorAll(".vote:not(:has([aria-pressed=true]))"))
        vote.querySelector("button")!.click();
    });
    looks = (await isStill()) ? looks + 1 : 0;
    return looks;
  };
  await expect.poll(stillFor, { ...patience, interval: 100 }).toBeGreaterThan(3);
}

const figure = (page: Page, name: string) => page.locator(`[data-figure="${name}"]`).innerText();

/** Nothing failed, nothing is not a number, nobody else was spoken to. */
async function expectWhole(visited: Visit): Promise<void> {
  const { page } = visited;
  await expect
    .poll(() => page.locator(".observablehq--error, [data-state=rejected]").allInnerTexts())
    .toEqual([]);
  expect(await page.locator("main").innerText()).not.toMatch(/NaN|Infinity|undefined|\[object/);
  expectQuiet(visited);
}

/** Moves a slider by its keys. */
async function press(page: Page, slider: string, key: string, times: number): Promise<void> {
  await page.locator(`input[name="${slider}"]`).focus();
  for (let i = 0; i < times; i++) await page.keyboard.press(key);
}

/** What the model's worker found of the peaks in the notebook on resistance, beside the study's own. */
async function expectBlown(page: Page, gapMm: number, litresPerMinute: number): Promise<void> {
  const still = new Instrument(demo);
  const estimate = new Instrument(demo, { like: still, breath: breathOf(demo, litresPerMinute) });
  const instruments = blownInstruments(still, estimate, litresPerMinute);
  const six = playedPeaks(breathEffect(instruments, litresPerMinute, gapMm, 0)).find(({ n }) => n === 6)!;
  const widest = gapEffect(breathEffect(instruments, litresPerMinute, mostGapMm, 0));
  const range = ([low, high]: readonly [number, number]) => `${signed(low, 2)} to ${signed(high, 2)} dB`;
  const said = (name: string) => figure(page, name).then((text) => text.replace(/\s+/g, " "));
  await expect.poll(() => said("breath-6")).toBe(`${signed(six.breathDb.estimate, 2)} dB`);
  await expect.poll(() => said("gap-still")).toBe(range(widest.still));
  await expect.poll(() => said("gap-blown")).toBe(range(widest.blown));
  await expect.poll(() => said("gap-other")).toBe(`${widest.otherBy.toFixed(2)} dB`);
}

/** What holds at either end of a notebook's sliders: said, and never a nonsense. */
async function expectEnds(
  visited: Visit,
  sliders: readonly string[],
  expectSaid: (said: string, end: "Home" | "End") => void = () => {},
): Promise<void> {
  const { page } = visited;
  for (const end of ["Home", "End"] as const) {
    for (const slider of sliders) await press(page, slider, end, 1);
    await settled(page);
    await expectWhole(visited);
    const said = await page.locator("main").innerText();
    expect(said).not.toMatch(/missed by \+?0 cents|Rounded to 0\.00|\+0\.0 cents against/);
    expectSaid(said, end);
  }
}

/** What a notebook says, settled and as it opens: computed here once more, then with its sliders moved. */
const SAYS: Readonly<Record<string, (visited: Visit) => Promise<void>>> = {
  // as computed outside the browser, before and after a slider is moved, and what holds at the ends
  "why-the-gap-matters": async (visited) => {
    const { page } = visited;
    const expected = async (gapMm: number) => {
      const { shiftCents, heightDb, slideMm, remainingCents } = effectOf(gapMm);
      await expect.poll(() => figure(page, "shift")).toBe(`${signed(shiftCents, 1)} cents`);
      await expect.poll(() => figure(page, "height")).toBe(`${signed(heightDb, 2)} dB`);
      await expect.poll(() => figure(page, "slide")).toBe(`${signed(slideMm, 1)} mm`);
      await expect.poll(() => figure(page, "remaining")).toBe(`${signed(remainingCents, 1)} cents`);
    };
    await expected(4.5);
    await press(page, "gap", "ArrowRight", 50);
    await settled(page);
    await expected(5.5);
    await press(page, "length", "Home", 1);
    const lowest = stageOf(tube(600)).modes[0].frequencyHz;
    await expect.poll(() => figure(page, "tube-lowest")).toBe(`${lowest.toFixed(1)} Hz`);
    await expectWhole(visited);
    await expectEnds(visited, ["length", "bell", "cup", "gap"], (said, end) => {
      expect(said.includes("Without a bell nothing has moved")).toBe(end === "Home");
      expect(said.includes("until the shank touches the leadpipe")).toBe(end === "Home");
      expect(said).toMatch(end === "Home" ? /With the cup so shallow/ : /With the cup so deep/);
    });
  },
  // the curve and the errors are those of the tests' tables
  "how-the-gap-is-modelled": async (visited) => {
    const { page } = visited;
    await expect.poll(() => figure(page, "excess")).toBe(excessAt(2.54).toFixed(3));
    const worst = theGap.map((check) => outcomeOf(check).worst.off);
    await expect.poll(() => figure(page, "straight-worst")).toBe(`${(100 * worst[0]).toFixed(3)} %`);
    await expect.poll(() => figure(page, "usual-worst")).toBe(`${(100 * worst[1]).toFixed(3)} %`);
    await press(page, "gap", "Home", 1);
    await expect.poll(() => figure(page, "excess")).toBe(excessAt(0.2).toFixed(3));
    await expectWhole(visited);
  },
  // the study's figures, the worker's among them, before and after flow and entry are moved, and what holds at the ends
  resistance: async (visited) => {
    const { page } = visited;
    const expected = async (gapMm: number, litresPerMinute: number, entry: number) => {
      const { gap } = resistance(withEntry(entry), { gapMm, litresPerMinute });
      await expect.poll(() => figure(page, "gap-estimate")).toBe(`${gap.dropPa.estimate.toFixed(2)} Pa`);
      await expect.poll(() => figure(page, "gap-most")).toBe(`${gap.dropPa.upper.toFixed(2)} Pa`);
      const change = resistanceChange(demo, { gapMm, referenceGapMm, litresPerMinute });
      await expect
        .poll(() => figure(page, "change-percent"))
        .toBe(`${signed(change.changePercent.estimate, 2)} %`);
      await expect.poll(() => figure(page, "finding")).toBe(RESISTANCE_FINDING[change.finding]);
    };
    await expected(5, 20, entryMm);
    await expect
      .poll(() => figure(page, "threshold-4"))
      .toBe(`${(thresholdsAt(5).find(({ n }) => n === 4)!.mouthPa / 1000).toFixed(2)} kPa`);
    const [loud] = levelLoss(new Instrument(demo, { modes: MODAL_COUNT }), { gapsMm: [5] });
    await expect.poll(() => figure(page, "loud-all")).toBe(`${signed(loudestLoss(loud, 4)!.heightDb, 2)} dB`);
    const edge = resistance(withEdge(0.5), { gapMm: 5, litresPerMinute: 20 }).throatEdge.dropPa.estimate;
    await expect.poll(() => figure(page, "edge-estimate")).toBe(`${edge.toFixed(1)} Pa`);
    const giving = mayGive(streamAcross(5, 20))!;
    await expect.poll(() => figure(page, "gives-from")).toBe(giving.from.toFixed(2));
    const { turning } = nearestGapStream(gapStreamNumbers(demo, 5, 20)!);
    await expect.poll(() => figure(page, "turning")).toBe(`${(100 * turning).toFixed(1)} %`);
    await expectBlown(page, 5, 20);
    await press(page, "flow", "ArrowRight", 10);
    await press(page, "entry", "Home", 1);
    await expected(5, 30, 7.9);
    await settled(page);
    await expectBlown(page, 5, 30);
    await expectWhole(visited);
    await expectEnds(visited, ["flow", "gap", "edge", "entry"], (said, end) => {
      expect(said.includes("Left sharp, the edge takes")).toBe(end === "Home");
      expect(said.includes("Without a gap no layer crosses it")).toBe(end === "Home");
      expect(said.includes("The gap is closed: nothing can differ")).toBe(end === "Home");
    });
  },
  // what begins, what the workers find, where a leap lands, and what holds at the ends
  slots: async (visited) => {
    const { page } = visited;
    await expect
      .poll(() => figure(page, "begins"))
      .toBe(`${note(whatBegins(blownOn(5), 445, 8000).n!)} begins`);
    const fourth = (gapMm: number) =>
      slotsAt(instrument, gapMm, { referenceGapMm }).notes.find(({ n }) => n === 4)!.slot!;
    await expect.poll(() => figure(page, "hold-4")).toBe(`${fourth(5).slotWidthCents.toFixed(1)} cents`);
    await expect.poll(() => figure(page, "hold-finding")).toBe("too small to notice");
    await expect.poll(() => figure(page, "landed")).toBe(note(followLeap(6, 8, 5, -160).landed!));
    await press(page, "miss", "ArrowRight", 12);
    await expect.poll(() => figure(page, "landed")).toBe("high C (8)");
    await press(page, "gap", "Home", 1);
    await settled(page);
    await expect.poll(() => figure(page, "hold-4")).toBe(`${fourth(0).slotWidthCents.toFixed(1)} cents`);
    // one press, one leap, to its end
    await page.getByRole("button", { name: "Hear this slur" }).click();
    await page.getByText("played", { exact: true }).waitFor(patience);
    await expectWhole(visited);
    await expectEnds(visited, ["pressure", "gap", "miss"]);
  },
  // compared, ranked, searched, fitted; another wish and another suspect
  "three-leadpipes": async (visited) => {
    const { page } = visited;
    const [reference, , quick] = drawings.map(({ setup, gapMm }) => ({
      instrument: new Instrument(setup),
      gapMm,
    }));
    const from = reference.instrument.modes(reference.gapMm)[5].frequencyHz;
    const target = reference.instrument.modes(reference.gapMm)[tuned - 1].frequencyHz;
    const drawMm = quick.instrument.drawFor(tuned, target, quick.gapMm);
    const moved = quick.instrument.modes(quick.gapMm, drawMm)[5].frequencyHz;
    await expect
      .poll(() => figure(page, "apart-3"))
      .toBe(`${signed(1200 * Math.log2(moved / from), 1)} cents`);
    await expect.poll(() => figure(page, "decision")).toMatch(/^Build Even taper/);
    const before = Number.parseFloat(await figure(page, "miss-before"));
    expect(Number.parseFloat(await figure(page, "miss-after"))).toBeLessThan(before);
    await expect.poll(() => figure(page, "judgement")).toMatch(/wrong/);
    await page.getByLabel("the gap and the roughness of the walls").check();
    await expect.poll(() => figure(page, "judgement"), patience).toMatch(/will do/);
    expect(Number.parseFloat(await figure(page, "fitted-gap"))).toBeCloseTo(referenceGapMm + 0.6, 1);
    await page.getByLabel("a firm bottom").check();
    await expect.poll(() => figure(page, "first")).toBe("Long entry");
    await expectWhole(visited);
  },
  // makes every check, and all are within what the tests allow
  "how-far-to-trust-this": async (visited) => {
    const { page } = visited;
    await expect.poll(() => figure(page, "done"), patience).toBe(`${CHECKS.length} of ${CHECKS.length}`);
    const values = CHECKS.reduce((sum, check) => sum + outcomeOf(check).samples.length, 0);
    await expect.poll(() => figure(page, "values")).toBe(`${values}`);
    await expect.poll(() => figure(page, "within")).toBe("all");
    await expect.poll(() => page.locator("main table tbody tr").count()).toBe(CHECKS.length);
    // every kind of work is timed at every size, here and now
    const timed = KINDS.map(
      ({ name, of, sizes }) => `${name}: ${sizes[0]} to ${sizes.at(-1)} ${of}, time as size to`,
    );
    await expect
      .poll(() => page.locator("svg.cost desc").textContent(), patience)
      .toMatch(new RegExp(timed.map((text) => `${text} the power -?\\d\\.\\d\\d\\.`).join(" ")));
    await expectWhole(visited);
  },
};

describe.each(NOTEBOOKS)("$title", ({ name, title }) => {
  it("runs every cell, asks nobody, is sound at every width in both themes, prints, says what is computed outside the browser, and leads back", async () => {
    const visited = await visit({ hash: at(name) });
    const { page } = visited;
    await settled(page);
    await expectWhole(visited);
    await expect.poll(() => page.locator("h1").innerText()).toBe(title);
    await expect.poll(() => page.locator("header nav [aria-current]").getAttribute("title")).toBe(title);
    await expect
      .poll(() => page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content"))
      .toMatch(/default-src 'none'(?!.*unsafe)/);
    await expectSoundEverywhere(page, `notebook-${name}`);
    await expectWhole(visited);
    const pdf = await page.pdf({ path: `${screenshots}notebook-${name}.pdf`, format: "A4" });
    expect(pdf.length).toBeGreaterThan(10_000);
    await SAYS[name]?.(visited);
    await page.locator("header .home").click();
    await page.getByTestId(`notebook-${name}`).waitFor();
  }, 300_000);
});

it("is known of each what it says, but of the one that is about an instrument of one's own", () => {
  const unknown = NOTEBOOKS.filter(({ name }) => !(name in SAYS));
  expect(unknown.map(({ name }) => name)).toEqual(["your-own-slot"]);
});

describe("in the page's own light", () => {
  it("is as dark as the page was left, whatever the system says", async () => {
    const { page, address } = await visit({ hasModel: false });
    const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    await page.getByRole("button", { name: /^Theme: auto/ }).click();
    await page.getByRole("button", { name: /^Theme: light/ }).click();
    await page.getByRole("button", { name: /^Theme: dark/ }).waitFor();
    await page.goto(address + at("why-the-gap-matters"));
    await expect.poll(() => ground()).toBe("rgb(18, 23, 26)");
    await page.emulateMedia({ colorScheme: "light" });
    await expect.poll(() => ground()).toBe("rgb(18, 23, 26)");
  });
});

describe("for a class", () => {
  it("an answer waits for a vote, code stands behind a fold, and formulas are set", async () => {
    const visited = await visit({ hash: at("why-the-gap-matters") });
    const { page } = visited;
    await page.locator(".vote button").first().waitFor();
    const answer = page.locator('[data-figure="shift"]');
    await expect.poll(() => answer.count()).toBe(1);
    await expect.poll(() => answer.isVisible()).toBe(false);
    await page.locator(".vote button").nth(1).click();
    await expect.poll(() => answer.isVisible()).toBe(true);
    await expect
      .poll(() => page.locator(".vote [role=status]").innerText())
      .toMatch(/^Your vote: a few cents/);
    const code = page.locator("details.code pre").first();
    expect(await code.isVisible()).toBe(false);
    await page.locator("details.code summary").first().click();
    expect(await code.isVisible()).toBe(true);
    expect(await page.locator("main math").count()).toBeGreaterThan(2);
    expectQuiet(visited);
  });

  it("shows one figure at a time on a projector, type of 30 px and more, by arrow keys, and moves its slider", async () => {
    const visited = await visit({ hash: at("why-the-gap-matters") });
    const { page } = visited;
    await page.setViewportSize({ width: 1920, height: 1080 });
    await settled(page);
    await page.locator(".to-projector").click();
    const place = page.locator(".projector .place");
    const count = await page.locator("main figure").count();
    for (let i = 1; i <= count; i++) {
      await expect.poll(() => place.innerText()).toBe(`${i} of ${count}`);
      const smallest = () =>
        page.locator("figure.projected > svg").evaluate((svg: SVGSVGElement) => {
          const enlarged = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
          const sizes = [...svg.querySelectorAll("text")].map((text) =>
            Number.parseFloat(getComputedStyle(text).fontSize),
          );
          return enlarged * Math.min(...sizes);
        });
      await expect.poll(smallest, { message: `figure ${i}` }).toBeGreaterThanOrEqual(30);
      expect(
        await page.locator("figure.projected").evaluate((one) => one.scrollHeight - innerHeight),
      ).toBeLessThanOrEqual(0);
      expect((await page.locator(".projector .teacher").innerText()).length).toBeGreaterThan(40);
      if (i < count) await page.keyboard.press("ArrowRight");
    }
    const moved = page.locator(".projector .moved");
    await expect.poll(() => moved.innerText()).toMatch(/^Gap: 4\.50 mm/);
    await page.keyboard.press("ArrowDown");
    await expect.poll(() => moved.innerText()).toMatch(/^Gap: 4\.10 mm/);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator(".projector").count()).toBe(0);
    await expect.poll(() => page.locator("figure.projected").count()).toBe(0);
    expectQuiet(visited);
  });
});

describe("the task Learn", () => {
  it("keeps all notebooks from the first one that is opened, and says so there and in Learn, which names them and is sound at every width and in every colour; they open without a network", async () => {
    const visited = await visit({ hash: at("slots"), keepsItself: true });
    const { page, context, address } = visited;
    await page.getByTestId("notebooks-kept").getByText("Kept in this browser: all seven").waitFor(patience);
    await page.goto(`${address}#learn`);
    await page.getByTestId("notebooks-kept").getByText("Kept in this browser").waitFor(patience);
    await expectSoundEverywhere(page, "learn");
    expectQuiet(visited);
    await context.setOffline(true);
    for (const { name, title } of NOTEBOOKS) {
      await page.goto(address + at(name));
      await settled(page, false);
      await expect.poll(() => page.locator("h1").innerText()).toBe(title);
      await expect.poll(() => page.locator(".observablehq--error").count()).toBe(0);
    }
    await page.locator("header .home").click();
    await page.getByText("Kept in this browser").waitFor();
  }, 300_000);

  it("goes on keeping them while another task is looked at", async () => {
    const { page, address } = await visit({ hash: "#learn", keepsItself: true, hasModel: false });
    await page.getByTestId("notebooks-kept").waitFor();
    await page.evaluate(() => {
      location.hash = "#measure";
    });
    const files: string[] = await (await page.request.get(`${address}notebooks/files.json`)).json();
    const kept = () => page.evaluate(async () => (await (await caches.open("notebooks")).keys()).length);
    await expect.poll(kept, patience).toBe(files.length);
    await page.getByTestId("task-learn").click();
    await page.getByTestId("notebooks-kept").getByText("Kept in this browser").waitFor(patience);
  }, 300_000);

  it("has files that name no package server", async () => {
    const { page, address } = await visit({ hash: "#learn", hasModel: false });
    const files: string[] = await (await page.request.get(`${address}notebooks/files.json`)).json();
    expect(files.length).toBeGreaterThan(NOTEBOOKS.length);
    for (const file of files.filter((name) => /\.(js|html|css)$/.test(name))) {
      const text = await (await page.request.get(`${address}notebooks/${file}`)).text();
      expect(text, file).not.toMatch(/jsdelivr|esm\.sh|unpkg|skypack|["'`]npm:/);
    }
  });
});
