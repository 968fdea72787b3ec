import { readFileSync } from "node:fs";
import { csvParse } from "d3";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { trialFinding } from "../../../src/trial/finding.ts";
import { isRated, type Trial } from "../../../src/trial/trial.ts";
import { trialSentence } from "../../../src/words/trial/sentence.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { allKept, kept, plan as planByKeys, playAll as playByKeys, reloadWith, seal } from "./trialByKeys.ts";

const { visit } = useBrowser();
const GAPS = ["1.1", "2.2", "3.3", "4.4"];

const entry = (page: Page, label: string) => page.getByRole("textbox", { name: label, exact: true });
const slider = (page: Page, name: string) => page.getByRole("slider", { name, exact: true });

async function open(options: Parameters<typeof visit>[0] = {}) {
  const visited = await visit({ hasModel: false, hash: "#trial", ...options });
  await entry(visited.page, "gap 1").waitFor();
  return visited;
}

/** Likes 2.2 mm best; what a player would say who knew. */
const liking = ({ items, turns }: Trial, at: number): number =>
  [5, 9, 6, 2][GAPS.indexOf(`${items[turns[at].item].gapMm}`)] - (at % 3 === 0 ? 1 : 0);

const plan = (page: Page, gaps: readonly string[] = GAPS): Promise<void> => planByKeys(page, gaps);

const playAll = (page: Page, trial: Trial, from?: number, to?: number): Promise<void> =>
  playByKeys(page, trial, (at) => liking(trial, at), from, to);

/** Everything in the page with all its shadows, text and attributes alike. */
const wholePage = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const parts: string[] = [];
    const take = (root: Document | ShadowRoot) => {
      parts.push(root instanceof Document ? root.documentElement.outerHTML : root.innerHTML);
      for (const element of root.querySelectorAll("*")) if (element.shadowRoot) take(element.shadowRoot);
    };
    take(document);
    return parts.join("\n");
  });

const GIVEAWAY = /\b(1\.10|2\.20|3\.30|4\.40|0\.043|0\.087|0\.130|0\.173|1\.1|2\.2|3\.3|4\.4) ?(mm|in)\b/;

describe("a blind trial", () => {
  it("is planned, played and opened by keyboard alone, and says what the statistics say", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await tabTo(page, "gap 1");
    await plan(page);
    await page.getByText(/With 2 repeats, 8 turns in all, a difference of 20 points/).waitFor();
    const trial = await seal(page);
    await playAll(page, trial, 0, 3);
    // nothing is lost in the middle, and the next turn is at hand
    await expect.poll(async () => (await kept(page)).turns.filter(isRated).length).toBe(3);
    await page.reload();
    await page.getByTestId("code").filter({ hasText: trial.turns[3].code }).waitFor();
    await expect.poll(() => page.getByTestId("turn").innerText()).toMatch(/Turn 4 of 8, repeat 1 of 2/);
    await playAll(page, trial, 3);
    await page.getByText("All 8 turns are rated").waitFor();
    await tabTo(page, "open-trial");
    await page.keyboard.press("Enter");
    await page.locator("[data-testid=trial-ratings] svg").waitFor();
    await expect.poll(async () => (await kept(page)).opened).toBe("complete");
    const finding = trialFinding(await kept(page))!;
    await expect.poll(() => page.getByTestId("sentence").innerText()).toBe(trialSentence(finding, "mm"));
    await expect.poll(() => page.getByTestId("tests").getByRole("row").count()).toBe(5);
    await expect.poll(() => page.getByTestId("turns").getByRole("row").count()).toBe(9);
    await page.getByText(/Between the narrowest and the widest: .*the gap by 3\.30 mm/i).waitFor();
    await expect.poll(() => page.getByTestId("early").count()).toBe(0);
    const download = page.waitForEvent("download");
    await page.getByTestId("save-trial").click();
    const rows = csvParse(readFileSync(await (await download).path(), "utf8"));
    expect(rows.map(({ gap_mm }) => Number(gap_mm))).toEqual(
      trial.turns.map(({ item }) => trial.items[item].gapMm),
    );
    expectQuiet(visited);
  });

  it("shows nothing of its key before it is opened, but on the card that is asked for in so many words", async () => {
    const { page } = await open();
    await plan(page);
    const trial = await seal(page);
    // the control: the same search finds them where they may be
    const look = async () => GIVEAWAY.test(await wholePage(page));
    await expect.poll(() => look()).toBe(false);
    await playAll(page, trial, 0, 1);
    await expect.poll(() => look()).toBe(false);
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page.getByText("1 of 8 turns are rated").waitFor();
    await expect.poll(() => look()).toBe(false);
    await page.getByRole("button", { name: "Set-up card" }).click();
    await page.getByText("not for the player, nor for the technician who judges").waitFor();
    await expect.poll(() => look()).toBe(false);
    await page.getByTestId("show-card").click();
    const card = page.locator("annulus-trial-sealed annulus-trial-card");
    await card.getByText("gap to mount").waitFor();
    await expect.poll(() => look()).toBe(true);
    const rows = await card.locator("tbody tr").allInnerTexts();
    expect(trial.turns).toHaveLength(8);
    trial.turns.forEach(({ code, item }, i) => {
      expect(rows[i]).toMatch(
        new RegExp(`^${i + 1}\\s+${code}\\s+${trial.items[item].gapMm!.toFixed(2)} mm`),
      );
    });
    await page.getByTestId("hide-card").click();
    await expect.poll(() => look()).toBe(false);
  });

  it("is played by one person alone: slips for envelopes, no key anywhere, opened with what they held", async () => {
    const visited = await open();
    const { page } = visited;
    await page.getByRole("button", { name: "I play alone" }).click();
    await plan(page);
    await page.getByTestId("seal").press("Enter");
    const envelopes = page.locator("annulus-trial-sealed annulus-trial-envelopes");
    await envelopes.getByText(demo().name).waitFor();
    const slips = envelopes.getByTestId("slip");
    await expect.poll(() => slips.count()).toBe(4);
    await expect.poll(async () => (await kept(page))?.alone).toBe(true);
    const trial = await kept(page);
    // neither the kept trial nor the paper joins an envelope to a gap
    expect((await slips.allInnerTexts()).join(" ")).not.toMatch(/envelope/i);
    await picture(page, "trial-envelopes");
    await page.emulateMedia({ media: "print" });
    await expect.poll(() => page.locator("annulus-trial").isVisible()).toBe(false);
    const pdf = await page.pdf({ format: "A4", printBackground: true });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("button", { name: "Play", exact: true }).click();
    await page.getByTestId("envelope").filter({ hasText: trial.turns[0].code[0] }).waitFor();
    await expect.poll(async () => GIVEAWAY.test(await wholePage(page))).toBe(false);
    // what lies in C, F, H and J, as it fell out
    const holds = [2, 0, 3, 1];
    await playByKeys(page, trial, (at) => [5, 9, 6, 2][holds[trial.turns[at].item]]);
    await page.getByText("All 8 turns are rated").waitFor();
    await expect.poll(() => page.getByTestId("open-trial").isDisabled()).toBe(true);
    for (const [i, letter] of ["C", "F", "H", "J"].entries())
      await page.getByTestId(`held-${letter}`).selectOption(`${holds[i]}`);
    await page.getByTestId("open-trial").click();
    await page.getByTestId("played-alone").waitFor();
    await expect.poll(async () => (await kept(page)).opened).toBe("complete");
    const opened = await kept(page);
    expect(opened.turns.map(({ item }) => item)).toEqual(trial.turns.map(({ item }) => holds[item]));
    await expect
      .poll(() => page.getByTestId("sentence").innerText())
      .toBe(trialSentence(trialFinding(opened)!, "mm"));
    expectQuiet(visited);
  });

  it("prints the card alone", async () => {
    const { page } = await open();
    await plan(page);
    await seal(page);
    await page.getByRole("button", { name: "Set-up card" }).click();
    await page.getByTestId("show-card").click();
    await page.getByTestId("print-card").waitFor();
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 703, height: 1032 });
    await expect.poll(() => page.locator("annulus-trial").isVisible()).toBe(false);
    await page.getByText("Set-up card of a blind trial").last().waitFor();
    await picture(page, "trial-card-print");
    const pdf = await page.pdf({ format: "A4", printBackground: true });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  });

  it("opened early it says so, stays so after undo, and says so too once anything has sealed it again", async () => {
    const { page } = await open();
    await plan(page);
    const trial = await seal(page);
    await playAll(page, trial, 0, 1);
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page.getByTestId("open-trial").click();
    await page.getByText(/Opened early, with 1 of 8 turns rated/).waitFor();
    await expect
      .poll(() => page.getByTestId("sentence").innerText())
      .toMatch(/Too little was rated for any finding/);
    await page.getByRole("button", { name: /^Undo/ }).click();
    // the plan is open again, and the trial is still what it was
    await page.getByTestId("seal").waitFor();
    await expect.poll(() => page.getByTestId("trial-row").innerText()).toMatch(/opened early/);
    await expect.poll(async () => (await kept(page)).opened).toBe("early");
    // as a copy from before would have it
    await reloadWith(page, { ...(await kept(page)), opened: "sealed" });
    await page.getByTestId("code").waitFor();
    await playAll(page, trial, 1);
    await page.getByText("have been seen before").waitFor();
    await page.getByTestId("open-trial").click();
    await page.getByTestId("early").waitFor();
  });

  it("a second one is planned and played after it: both are there after a reload, the first with all 48 ratings", async () => {
    const visited = await open();
    const { page } = visited;
    await planByKeys(page, GAPS, 12);
    const first = await seal(page);
    expect(first.turns).toHaveLength(48);
    await playAll(page, first, 0, 1);
    // the other turns as if they had been played: what is tried here is what becomes of them
    const played = await kept(page);
    const ratingsOf = (item: number) => ({ hold: 50, ease: 50, evenness: 50, preference: 90 - 20 * item });
    const turns = played.turns.map((turn) => ({ ...turn, ratings: ratingsOf(turn.item) }));
    await reloadWith(page, { ...played, turns });
    await page.getByTestId("next").click();
    await page.getByText("All 48 turns are rated").waitFor();
    await page.getByTestId("open-trial").click();
    const sentence = await page.getByTestId("sentence").innerText();
    await expect.poll(() => page.getByTestId("trial-finding").innerText()).toBe(sentence);

    await page.getByTestId("plan-anew").click();
    await page.getByTestId("seal").waitFor();
    await expect.poll(() => page.getByTestId("trial-row").count()).toBe(1);
    await page.getByRole("textbox", { name: "Repeats", exact: true }).fill("2");
    const second = await seal(page);
    expect(second.turns).toHaveLength(8);
    // while it is played nothing is said of what the first found
    await expect.poll(() => page.getByTestId("trial-row").count()).toBe(2);
    expect(await page.getByTestId("trial-finding").allInnerTexts()).toEqual(["", ""]);
    await playAll(page, second);
    await page.getByTestId("open-trial").click();
    await page.getByTestId("sentence").waitFor();
    await expect
      .poll(async () => (await allKept(page)).map(({ opened }) => opened))
      .toEqual(["complete", "complete"]);

    await page.reload();
    await expect.poll(() => page.getByTestId("trial-row").count()).toBe(2);
    const [one, two] = await allKept(page);
    expect(one.turns.filter(isRated)).toHaveLength(48);
    expect(two.turns.filter(isRated)).toHaveLength(8);
    await page.getByTestId("trial-row").first().press("Enter");
    await expect.poll(() => page.getByTestId("sentence").innerText()).toBe(sentence);
    await expect.poll(() => page.getByTestId("turns").getByRole("row").count()).toBe(49);
    await page.getByTestId("report-trial").click();
    await expect.poll(() => page.getByTestId("sheet-trial").inputValue()).toBe(one.id);
    await page
      .locator("annulus-sheet annulus-paper")
      .getByText(`12 times each: ${sentence}`)
      .waitFor({ timeout: 60_000 });
    expectQuiet(visited);
  });

  it("does not go on before all four are rated, and says which are missing", async () => {
    const { page } = await open();
    await plan(page);
    await seal(page);
    await expect.poll(() => slider(page, "Slotting").getAttribute("aria-valuetext")).toMatch(/not rated yet/);
    await slider(page, "Blowing").press("ArrowRight");
    await page.getByTestId("next").click();
    await expect
      .poll(() => page.getByTestId("hint").innerText())
      .toBe("Still to rate: slotting, evenness, preference.");
    // a press in the middle of a blank scale means the middle
    await slider(page, "Slotting").click();
    await expect.poll(() => slider(page, "Slotting").getAttribute("aria-valuetext")).toMatch(/^50 of 100/);
    await expect.poll(() => slider(page, "Blowing").getAttribute("aria-valuetext")).toMatch(/^51 of 100/);
  });

  it("says beside the fields what is wrong, and seals nothing then", async () => {
    const { page } = await open();
    await plan(page, ["1", "99", "1"]);
    await page.getByText(/This receiver takes gaps from/).waitFor();
    await page.getByText("This gap is there already").waitFor();
    await expect.poll(() => page.getByTestId("seal").isDisabled()).toBe(true);
    await picture(page, "trial-wrong");
    await page.getByTestId("propose").click();
    await expect.poll(() => page.getByTestId("seal").isDisabled()).toBe(false);
  });
});

describe("a recording", () => {
  it("is made, kept over a reload, listened to and deleted", async () => {
    const visited = await open();
    const { page } = visited;
    // a tone in place of a microphone
    await page.addInitScript(() => {
      navigator.mediaDevices.getUserMedia = async () => {
        const sound = new AudioContext();
        const tone = new OscillatorNode(sound);
        const out = sound.createMediaStreamDestination();
        tone.connect(out);
        tone.start();
        (window as any).tone = tone;
        return out.stream;
      };
    });
    await page.reload();
    await plan(page);
    const trial = await seal(page);
    await page.getByTestId("record").click();
    await page.getByTestId("stop-recording").waitFor();
    await page.waitForFunction(() => (window as any).tone.context.currentTime > 0.6);
    await page.getByTestId("stop-recording").click();
    const audio = page.getByLabel(`Recording of ${trial.turns[0].code}`);
    await audio.waitFor();
    await page.reload();
    await audio.waitFor();
    await expect
      .poll(() => audio.evaluate((element) => (element as HTMLAudioElement).readyState))
      .toBeGreaterThan(0);
    await page.getByTestId("delete-recording").click();
    await audio.waitFor({ state: "detached" });
    expectQuiet(visited);
  });

  it("without a microphone is refused in words, and the trial goes on", async () => {
    const { page } = await open();
    await plan(page);
    await seal(page);
    await page.getByTestId("record").click();
    await page.getByText(/go on without/).waitFor();
    await expect.poll(() => page.getByTestId("next").isEnabled()).toBe(true);
  });
});

describe("the trial's sheet for everyone", () => {
  it("is sound at every width and in every colour, from plan to result", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await plan(page);
    await page.locator("[data-testid=trial-power] svg").waitFor({ state: "attached" });
    await expectSoundEverywhere(page, "trial-plan");
    const trial = await seal(page);
    await expectSoundEverywhere(page, "trial-session");
    for (const width of [390, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      for (const scale of ["Slotting", "Blowing", "Evenness", "Preference"])
        expect((await slider(page, scale).boundingBox())!.height).toBeGreaterThanOrEqual(44);
    }
    await page.getByRole("button", { name: "Set-up card" }).click();
    await page.getByTestId("show-card").click();
    await expectSoundEverywhere(page, "trial-card");
    await page.getByRole("button", { name: "Play", exact: true }).click();
    await playAll(page, trial);
    await page.getByTestId("open-trial").click();
    await page.locator("[data-testid=trial-ratings] svg").waitFor({ state: "attached" });
    await expectSoundEverywhere(page, "trial-result");
    expectQuiet(visited);
  });
});
