/** The task Listen from the microphone to the report's numbers: Chromium's microphone is a file, a take whose truth is known. */
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { wavBlocks } from "../../../src/listen/wav.ts";
import { wavBytes } from "../../../src/response/wavBytes.ts";
import { expectQuiet, picture, useBrowser, type Visit, type VisitOptions } from "../browser.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab } from "../still.ts";

const folder = fileURLToPath(new URL("../../reference/listen/", import.meta.url));
const { takes } = JSON.parse(readFileSync(`${folder}truth.json`, "utf8"));
const truth = takes.find(({ file }: { file: string }) => file === "slot-trumpet.wav").slot;

const rate = 48_000;
/** The player begins after the count-in; a little noise, as in a quiet room. */
function microphone(file: string, beforeS: number): string {
  const blocks = [...wavBlocks([new Uint8Array(readFileSync(folder + file))])];
  const take = blocks.flatMap(({ channels }) => [...channels[0]]);
  const fromRate = blocks[0].sampleRateHz;
  const length = Math.round((beforeS + take.length / fromRate + 8) * rate);
  let seed = 1;
  const samples = Float32Array.from({ length }, (_, i) => {
    seed = (seed * 48271) % 2147483647;
    const at = (i / rate - beforeS) * fromRate;
    const k = Math.floor(at);
    const played = k >= 0 && k + 1 < take.length ? take[k] + (at - k) * (take[k + 1] - take[k]) : 0;
    return played + 0.0008 * (seed / 1073741824 - 1);
  });
  const path = join(mkdtempSync(join(tmpdir(), "annulus-microphone-")), "microphone.wav");
  writeFileSync(path, wavBytes({ samples, rate }));
  return path;
}

const { visit } = useBrowser([
  "--use-fake-device-for-media-stream",
  "--use-fake-ui-for-media-stream",
  `--use-file-for-fake-audio-capture=${microphone("slot-trumpet.wav", 5)}%noloop`,
]);

/** Chromium's own dialog cannot be answered by a test; the older one can. */
async function open(options: VisitOptions = {}): Promise<Visit> {
  const visited = await visit({
    hasModel: false,
    ...options,
    hash: "#listen",
    before: [
      () => {
        Reflect.deleteProperty(window, "showOpenFilePicker");
      },
    ],
  });
  await visited.page.getByTestId("listen").waitFor();
  return visited;
}

const said = async (page: Page, name: string) => (await page.getByTestId(name).innerText()).trim();

async function openRecording({ page }: Visit, file: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByTestId("listen-file").click();
  await (await chooser).setFiles(folder + file);
}

describe("listening", () => {
  it("hears a slot from the microphone as it is bent, keeps it, and compares it with another gap", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expect.poll(() => said(page, "listen-state")).toBe("Ready.");
    await page.keyboard.press("Space");
    await page.getByTestId("listen-state").filter({ hasText: /quiet/ }).waitFor();
    await page.getByTestId("listen-state").filter({ hasText: "Play." }).waitFor();
    await expect.poll(() => said(page, "level")).toMatch(/room −\d+ dB: quiet enough/);
    // an end of the slot is drawn while the player goes on
    await page
      .locator(
        "[data-testid=pitch-strip] [data-part=low-end], [data-testid=pitch-strip] [data-part=high-end]",
      )
      .first()
      .waitFor();
    await expect.poll(() => said(page, "listen-state")).toBe("Play.");
    await picture(page, "listen-live");
    // it ends by itself once nothing is played any more
    await page.getByTestId("listen-state").filter({ hasText: "Done. Keep it?" }).waitFor({ timeout: 60_000 });
    const width = Number(/(\d+) cents wide/.exec(await said(page, "found"))![1]);
    expect(Math.abs(width - truth.width_cents)).toBeLessThan(10);
    expect(await page.getByTestId("kept-on").count()).toBe(0);
    await page.getByTestId("play-back").waitFor();
    await picture(page, "listen-found");
    await expectSoundEverywhere(page, "listen-found");

    await page.keyboard.press("k");
    await page.getByTestId("takes").waitFor();
    expect(await page.getByTestId("takes").locator("tbody tr").count()).toBe(1);
    await page.getByTestId("microphone-off").click();

    // the same by a file, at another gap
    const gap = page.getByTestId("listen-gap").locator("input");
    await gap.fill("3 mm");
    await gap.press("Enter");
    await openRecording(visited, "slot-trumpet.wav");
    await page.getByTestId("found").filter({ hasText: "cents wide" }).waitFor();
    await page.getByTestId("keep-take").click();
    await expect
      .poll(() => said(page, "measured"))
      .toMatch(
        /^Slot of C in the staff \(4\): \d+ ± \d+ cents at 3\.00 mm, \d+ ± \d+ cents at 2\.50 mm: no difference found; one of \d+ cents would have been\.$/,
      );

    // the model stands beside it, once its lips are worked out
    await page.getByTestId("beside-model").filter({ hasText: "The model says" }).waitFor();
    await page.locator("[data-testid=listened] [data-part=model]").waitFor({ state: "attached" });
    expect(await page.locator("[data-testid=listened] [data-part=measured]").count()).toBe(2);
    await expectSoundEverywhere(page, "listen-takes");

    await keptInTab(page, /"gapMm":3,.*"test":"slot"/);
    await page.reload();
    await expect.poll(() => page.getByTestId("takes").locator("tbody tr").count()).toBe(2);
    expectQuiet(visited);
  });

  it("keeps a take under a blind code, which tells no gap before the trial is opened", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await page.getByTestId("task-trial").click();
    await page.getByTestId("decided-by").selectOption("slot");
    await page.getByTestId("measured-decides").filter({ hasText: "listen to the same note" }).waitFor();
    await page.getByTestId("propose").click();
    await page.getByTestId("seal").click();
    await page.getByTestId("code").waitFor();
    const code = await said(page, "code");
    await page.getByTestId("task-listen").click();
    await page.getByTestId("listen-trial").selectOption({ index: 1 });
    // nothing can be kept before it is known what it belongs to
    await expect.poll(() => page.getByTestId("listen").isDisabled()).toBe(true);
    await page.getByTestId("listen-code").selectOption(code);
    await openRecording(visited, "slot-trumpet.wav");
    await page.getByTestId("found").filter({ hasText: "cents wide" }).waitFor();
    await page.getByTestId("keep-take").click();
    const row = page.getByTestId("takes").locator("tbody tr");
    await expect.poll(() => row.innerText()).toContain(code);
    expect(await row.innerText()).not.toContain("mm");
    expect(await page.getByTestId("measured").count()).toBe(0);

    // the take alone makes the turn: no rating is asked for, and the next one is listened to from there
    await page.getByTestId("task-trial").click();
    await page
      .getByTestId("turn-takes")
      .filter({ hasText: "Slot: −" })
      .or(page.getByTestId("no-take"))
      .waitFor();
    while (!(await page.getByTestId("back").isDisabled())) await page.getByTestId("back").click();
    await page.getByTestId("turn-takes").filter({ hasText: "Slot:" }).waitFor();
    await page.getByTestId("next").click();
    await page.getByTestId("turn").filter({ hasText: "Turn 2 of" }).waitFor();
    await page.getByTestId("next").click();
    await page.getByTestId("hint").filter({ hasText: "a take of this turn" }).waitFor();
    const second = await said(page, "code");
    await page.getByTestId("listen-to-turn").click();
    await expect.poll(() => page.getByTestId("listen-code").inputValue()).toBe(second);

    // opened before all turns have their take it decides nothing, and says so on its sheet and on the report
    await page.getByTestId("task-trial").click();
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page
      .getByTestId("opening")
      .filter({ hasText: /1 of \d+ turns are measured/ })
      .waitFor();
    await page.getByTestId("open-trial").click();
    const outcome = page.getByTestId("measured-trial");
    await outcome.filter({ hasText: "decided by slot width, measured" }).waitFor();
    await outcome.filter({ hasText: "it decides nothing" }).waitFor();
    expect(await page.getByTestId("sentence").count()).toBe(0);
    await page
      .getByTestId("turns")
      .filter({ hasText: "1 down" })
      .or(page.getByTestId("turns").filter({ hasText: " up" }))
      .first()
      .waitFor();
    await page.getByTestId("report-trial").click();
    await page
      .locator("annulus-paper")
      .getByText(/Planned beforehand: .*decided by slot width, measured/)
      .first()
      .waitFor();
    expectQuiet(visited);
  });

  it("says what no take can be made of, and drops one", async () => {
    const visited = await open();
    const { page } = visited;
    await openRecording(visited, "noise-only.wav");
    await page.getByTestId("found").filter({ hasText: "Nothing was found" }).waitFor();
    await expect.poll(() => said(page, "take-warnings")).toMatch(/No note was heard/);
    await expect.poll(() => page.getByTestId("keep-take").isDisabled()).toBe(true);
    await page.keyboard.press("d");
    await expect.poll(() => page.getByTestId("found").count()).toBe(0);
    await openRecording(visited, "README.md");
    await page.getByTestId("listen-problem").filter({ hasText: "README.md" }).waitFor();
    expectQuiet(visited);
  });

  it("offers a file where there is no microphone, or no leave to use it", async () => {
    const visited = await open();
    const { page } = visited;
    await page.addInitScript(() => {
      navigator.mediaDevices.getUserMedia = () =>
        Promise.reject(new DOMException("no leave", "NotAllowedError"));
    });
    await page.reload();
    await page.getByTestId("listen").click();
    await page
      .getByTestId("listen-problem")
      .filter({ hasText: /may not use the microphone.*open a recording/s })
      .waitFor();
    await openRecording(visited, "attack-trombone.wav");
    await page.getByTestId("found").waitFor();
    expectQuiet(visited);
  });
});
