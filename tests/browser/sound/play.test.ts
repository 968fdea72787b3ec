import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { Oscillator } from "../../../src/lips/oscillator.ts";
import { playingOf } from "../../../src/lips/playing.ts";
import { DEFAULT_LIPS, type Lips } from "../../../src/study/feel/lipParameters.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { slotsAt } from "../../../src/study/feel/slots.ts";
import { type VoiceAtGap, Voices } from "../../../src/study/feel/voice.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { LIMIT } from "../../../workers/voice/limiter.ts";
import { MOST_MOUTH_PRESSURE } from "../../../workers/voice/lipsProtocol.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { focused, tabTo } from "../keyboard.ts";
import { expectSound, expectSoundEverywhere } from "../soundness.ts";
import { still } from "../still.ts";

const { visit } = useBrowser();

async function open(options: Parameters<typeof visit>[0] = {}) {
  const visited = await visit({ hash: "#play", ...options });
  await visited.page
    .locator("[data-testid=play-pad] svg [data-part=slot]")
    .first()
    .waitFor({ state: "attached", timeout: 30_000 });
  return visited;
}

const said = async (page: Page, name: string) => (await page.getByTestId(name).innerText()).trim();
const soundIs = (page: Page, state: string) =>
  page.getByTestId("sound-state").filter({ hasText: state }).waitFor();

const RATE = 48000;
const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
const voices = new Voices(instrument);
const at = (gapMm: number, lips: Lips = DEFAULT_LIPS) => voices.at(gapMm, RATE, lips);

/** At a moment, s. */
interface Step {
  readonly at: number;
  readonly blow?: { readonly mouthPressure: number; readonly lipHz: number };
  /** A place in `sounds`. */
  readonly become?: number;
}

/** What the page's own chain of sound, worklet and all, makes of this in an offline context at full volume. */
async function rendered(page: Page, sounds: readonly VoiceAtGap[], steps: readonly Step[], seconds: number) {
  const plain = sounds.map(({ modes, radiation, ...rest }) => ({
    ...rest,
    modes: { ...modes, poles: [...modes.poles], residues: [...modes.residues] },
    radiation: [...radiation],
  }));
  await page.getByTestId("accept").waitFor();
  // as text: the test runner rewrites imports in functions
  await page.evaluate(`(async () => {
    for (const { name } of window.Voice ? [] : performance.getEntriesByType("resource")) {
      const chunk = name.endsWith(".js") && /voice-[\\w-]+\\.js/.exec(await (await fetch(name)).text());
      if (chunk) window.Voice = (await import(new URL(chunk[0], name).href)).Voice;
    }
  })()`);
  const samples = await page.evaluate(
    async ({ plain, steps, seconds, rate }) => {
      const { Voice } = window as any;
      const context = new OfflineAudioContext(1, seconds * rate, rate);
      const all = plain.map(({ modes, radiation, ...rest }) => ({
        ...rest,
        modes: {
          ...modes,
          poles: Float64Array.from(modes.poles),
          residues: Float64Array.from(modes.residues),
        },
        radiation: Float32Array.from(radiation),
      }));
      const voice = await Voice.open(context, all[0], steps[0]?.blow?.lipHz ?? 400, 1);
      voice.letOut(true);
      for (const { at, blow, become } of steps)
        void context.suspend(at).then(async () => {
          if (blow) voice.blow(blow);
          if (become !== undefined) voice.become(all[become]);
          // messages are taken in their order: once one that must be refused has been, so are those before it
          await new Promise<void>((done) => {
            voice.listen((news: object) => {
              if ("refused" in news) done();
            });
            voice.blow({ mouthPressure: 1e9, lipHz: 400 });
          });
          await context.resume();
        });
      // as text: the driver takes numbers over one by one, a second of sound in more time than it is made
      const bytes = new Uint8Array((await context.startRendering()).getChannelData(0).slice().buffer);
      let text = "";
      for (const byte of bytes) text += String.fromCharCode(byte);
      return btoa(text);
    },
    { plain, steps, seconds, rate: RATE },
  );
  return new Float32Array(Uint8Array.from(Buffer.from(samples, "base64")).buffer);
}

/** Frequency of what repeats, Hz: the highest peak of the autocorrelation near a guess, a parabola through it. */
function pitchOf(sound: Float32Array, near: number): number {
  const correlation = (lag: number) => {
    let sum = 0;
    for (let i = 0; i + 400 < sound.length; i++) sum += sound[i] * sound[i + lag];
    return sum;
  };
  const middle = RATE / near;
  const periods = Math.max(1, Math.floor(350 / middle));
  let best = Math.round(0.97 * periods * middle);
  for (let lag = best; lag <= 1.03 * periods * middle; lag++)
    if (correlation(lag) > correlation(best)) best = lag;
  const [a, b, c] = [correlation(best - 1), correlation(best), correlation(best + 1)];
  return (periods * RATE) / (best + (a - c) / (2 * (a - 2 * b + c)));
}

const largest = (sound: Float32Array) => sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
const steepest = (sound: Float32Array) =>
  sound.reduce((most, x, i) => (i ? Math.max(most, Math.abs(x - sound[i - 1])) : 0), 0);
const part = (sound: Float32Array, from: number, to: number) => sound.subarray(from * RATE, to * RATE);

/** What the oscillator itself comes to, in time. */
function expectedHz({ valve, modes }: VoiceAtGap, blow: { mouthPressure: number; lipHz: number }): number {
  const oscillator = new Oscillator(RATE, valve, modes, { ...blow, mouthPressure: 0 });
  oscillator.blow(blow.mouthPressure, blow.lipHz);
  oscillator.run(new Float64Array(960));
  oscillator.run(new Float64Array(2 * RATE));
  const pressures = new Float64Array(RATE / 4);
  const openings = new Float64Array(RATE / 4);
  oscillator.run(pressures, openings);
  return playingOf(pressures, openings, RATE, blow.mouthPressure).frequencyHz!;
}

describe("the sound, rendered through the page’s own worklet", () => {
  const middle = (n: number) => {
    const { slot } = slotsAt(instrument, 2.5).notes.find((note) => note.n === n)!;
    return { lipHz: slot!.centreHz, mouthPressure: 1.25 * slot!.mouthPressure };
  };

  it("has the pitch the oscillator comes to, goes over to another gap without a click, and is bounded at every extreme", async () => {
    const visited = await visit({ hash: "#play" });
    await expectPitch(visited.page);
    await expectNoClick(visited.page);
    await expectBounded(visited.page);
    expectQuiet(visited);
  });

  /** Within 5 cents of the oscillator's own, and never past the limit. */
  async function expectPitch(page: Page): Promise<void> {
    for (const n of [4, 8]) {
      const blow = middle(n);
      const sound = await rendered(page, [at(2.5)], [{ at: 0.1, blow }], 2);
      expect(largest(part(sound, 0, 0.1))).toBe(0);
      const hz = expectedHz(at(2.5), blow);
      const cents = 1200 * Math.log2(pitchOf(part(sound, 1.5, 2), hz) / hz);
      expect(Math.abs(cents)).toBeLessThan(5);
      expect(largest(sound)).toBeGreaterThan(0.02);
      expect(largest(sound)).toBeLessThanOrEqual(LIMIT);
    }
  }

  /** Another gap while it sounds: no click, and the pitch of that gap. */
  async function expectNoClick(page: Page): Promise<void> {
    const blow = middle(4);
    for (const gapMm of [0, 6, 12]) {
      const steps = [
        { at: 0.1, blow },
        { at: 1.2, become: 1 },
      ];
      const sound = await rendered(page, [at(2.5), at(gapMm)], steps, 3);
      const steady = Math.max(steepest(part(sound, 0.9, 1.2)), steepest(part(sound, 2.5, 3)));
      expect(steepest(part(sound, 1.2, 2.5))).toBeLessThan(1.2 * steady);
      const hz = expectedHz(at(gapMm), blow);
      expect(Math.abs(1200 * Math.log2(pitchOf(part(sound, 2.5, 3), hz) / hz))).toBeLessThan(5);
    }
  }

  /** Silent without breath, bounded and finite at every extreme. */
  async function expectBounded(page: Page): Promise<void> {
    const slack = { ...DEFAULT_LIPS, quality: 0.5 };
    const unblown = await rendered(page, [at(2.5)], [{ at: 0, blow: { mouthPressure: 0, lipHz: 430 } }], 0.5);
    expect(largest(unblown)).toBe(0);
    for (const sound of [at(0), at(12), at(12, slack)])
      for (const lipHz of [60, 1400]) {
        const blow = { mouthPressure: MOST_MOUTH_PRESSURE, lipHz };
        const heard = await rendered(page, [sound], [{ at: 0, blow }], 0.6);
        expect(heard.every(Number.isFinite)).toBe(true);
        expect(largest(heard)).toBeLessThanOrEqual(LIMIT);
      }
    // refused: what was before goes on, here silence
    const refused = await rendered(
      page,
      [at(2.5)],
      [{ at: 0, blow: { mouthPressure: 1e7, lipHz: 430 } }],
      0.5,
    );
    expect(largest(refused)).toBe(0);
  }
});

describe("playing", () => {
  it("starts silent and sounds by keys alone, once the caution is accepted", async () => {
    const visited = await open();
    const { page } = visited;
    await expect.poll(() => said(page, "sound-state")).toBe("sound is off");
    await expect.poll(() => said(page, "caution")).toMatch(/volume low.*not with in-ear phones/s);
    await page.keyboard.press("Space");
    await expect.poll(() => said(page, "sound-state")).toBe("sound is off");
    await tabTo(page, "accept");
    await page.keyboard.press("Enter");
    await soundIs(page, "silent");
    await expect.poll(() => focused(page)).toBe("play-pad");
    await expect.poll(() => page.getByTestId("caution").count()).toBe(0);
    await page.keyboard.press("5");
    await page.keyboard.press("Space");
    await soundIs(page, "sounding");
    await page.getByTestId("regime").filter({ hasText: "5" }).waitFor();
    await expect.poll(() => said(page, "frequency")).toMatch(/^(59|60)\d\.\d Hz, concert D5 [+−]\d+ cents$/);
    await expect.poll(() => said(page, "edges")).toMatch(/^−\d+ … \+\d+ cents$/);
    await expect.poll(() => said(page, "level")).toMatch(/^\d+\.\d kPa$/);
    const lipsHz = async () => {
      const text = await page.getByTestId("lip-pitch").getAttribute("aria-valuetext");
      return Number(/([\d.]+) hertz/.exec(text!)![1]);
    };
    const before = await lipsHz();
    await page.keyboard.press("Shift+ArrowRight");
    await expect.poll(async () => 1200 * Math.log2((await lipsHz()) / before)).toBeCloseTo(50, -0.5);
    await page.keyboard.press("Escape");
    await soundIs(page, "silent");
    await expect.poll(() => said(page, "sounds")).toBe("silent");
    await page.getByTestId("mouth-pressure").focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("Space");
    await page.getByTestId("sounds").filter({ hasText: "nothing" }).waitFor();
    expectQuiet(visited);
  });

  it("plays while the pad is pressed, where it is pressed; Stop and leaving end it", async () => {
    const visited = await open();
    const { page } = visited;
    await page.getByTestId("accept").click();
    await soundIs(page, "silent");
    const box = (await page.locator("[data-testid=play-pad] [data-part=slot]").nth(3).boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + 0.6 * box.height);
    await page.mouse.down();
    await page.getByTestId("regime").filter({ hasText: "5" }).waitFor();
    const next = (await page.locator("[data-testid=play-pad] [data-part=slot]").nth(4).boundingBox())!;
    await page.mouse.move(next.x + next.width / 2, next.y + 0.5 * next.height, { steps: 5 });
    await page.getByTestId("regime").filter({ hasText: "6" }).waitFor();
    await page.mouse.up();
    await soundIs(page, "silent");
    await page.getByTestId("sound").click();
    await page.getByTestId("stop-always").click();
    await soundIs(page, "silent");
    await page.getByTestId("sound").click();
    await soundIs(page, "sounding");
    await page.getByTestId("task-explore").click();
    // Play shows the gap as well
    await page.locator("annulus-explore").waitFor();
    await page.locator("annulus-play").waitFor({ state: "detached" });
    await page.goBack();
    await soundIs(page, "sound is off");
    expectQuiet(visited);
  });

  it("follows the gap that Explore has, and hears the reference on demand", async () => {
    const { page } = await open();
    await page.getByTestId("accept").click();
    await soundIs(page, "silent");
    await page.getByTestId("sound").click();
    await page.getByTestId("regime").filter({ hasText: "4" }).waitFor();
    const hz = async () => Number.parseFloat(await said(page, "frequency"));
    /** What it reads once six readings in a row, a tenth of a second apart, agree. */
    const settled = async () => {
      const read: number[] = [];
      const spread = async () => {
        read.push(await hz());
        const lately = read.slice(-6);
        return lately.length < 6 ? Number.NaN : Math.max(...lately) - Math.min(...lately);
      };
      await expect.poll(spread, { interval: 100 }).toBeLessThan(0.15);
      return read.at(-1)!;
    };
    const wide = await settled();
    await page.getByRole("button", { name: /^compared with/ }).click();
    await expect.poll(hz).toBeGreaterThan(wide + 0.7);
    const narrow = await settled();
    expect(narrow - wide).toBeGreaterThan(0.7);
    await page.getByRole("button", { name: /^what if/ }).click();
    await expect.poll(hz).toBeLessThan(narrow - 0.7);
    await page.getByTestId("gap-field").fill("2.5 mm");
    await page.getByTestId("gap-field").press("Enter");
    await expect.poll(async () => Math.abs((await hz()) - narrow)).toBeLessThan(0.4);
    expect(Math.abs((await settled()) - narrow)).toBeLessThan(0.4);
    await expect.poll(() => page.getByTestId("go-blind").isDisabled()).toBe(true);
  });

  it("deals A and B blind: nothing on the page tells, a guess does and is counted", async () => {
    const visited = await open();
    const { page } = visited;
    await page.getByTestId("accept").click();
    await soundIs(page, "silent");
    await page.getByTestId("go-blind").click();
    await page.getByTestId("guess-A").waitFor();
    await page.getByTestId("sound").click();
    await page.getByTestId("sounds").filter({ hasText: "something" }).waitFor();
    // every attribute and every text, as who looks behind the page would find them
    const hidden = () =>
      page.locator("annulus-play").evaluate((element) => {
        const texts = (root: ParentNode): string[] =>
          [...root.querySelectorAll("*")].flatMap((one) => [
            ...Array.from(one.attributes, ({ name, value }) =>
              name === "aria-pressed" ? "" : `${name}=${value}`,
            ),
            one.childElementCount ? "" : (one.textContent ?? ""),
            ...(one.shadowRoot ? texts(one.shadowRoot) : []),
          ]);
        return texts(element.shadowRoot!);
      });
    await picture(page, "play-blind");
    const asA = await hidden();
    await page.getByRole("button", { name: "B", exact: true }).first().click();
    await page.getByRole("button", { name: "B", exact: true, pressed: true }).first().waitFor();
    await still(page);
    expect(await hidden()).toEqual(asA);
    await expect.poll(() => said(page, "edges")).toBe("hidden");
    await expect.poll(() => said(page, "frequency")).toBe("");
    await expect.poll(() => page.getByTestId("gap-value").count()).toBe(0);
    await page.getByTestId("guess-A").click();
    await expect.poll(() => said(page, "revealed")).toMatch(/^(Right|Wrong): A was \d.*mm.*in, B was \d.*mm/);
    const isRight = async () => ((await said(page, "revealed")).startsWith("Right") ? 1 : 0);
    const first = await isRight();
    await expect
      .poll(() => said(page, "blind-score"))
      .toMatch(first ? /^1 of 1 right: .* 50 %/ : /^0 of 1 right: .* 100 %/);
    await picture(page, "play-revealed");
    await page.getByTestId("again").click();
    await page.getByTestId("guess-B").click();
    await expect.poll(() => said(page, "blind-score")).toMatch(/of 2 right/);
    await expect
      .poll(() => said(page, "blind-score"))
      .toMatch(new RegExp(`^${first + (await isRight())} of 2 right`));
    await page.getByTestId("end-blind").click();
    await page.getByTestId("gap-value").waitFor();
    expectQuiet(visited);
  });

  it("draws a phrase at both gaps also without sound, says the finding, and has a table", async () => {
    const visited = await open();
    const { page } = visited;
    await page.getByTestId("phrase-octave").click();
    await page.locator("[data-testid=phrase] svg").waitFor();
    await expect.poll(() => said(page, "phrase-state")).toBe("Drawn only: sound is off.");
    const figure = page.locator("figure", { has: page.getByTestId("phrase") });
    await expect
      .poll(() => figure.locator("figcaption").innerText())
      .toMatch(/^Held notes differ by [−+]?\d\.\d cents at most/);
    await figure.locator("summary").click();
    await figure.locator("[data-action=table]").click();
    await expect.poll(() => figure.getByRole("row").count()).toBeGreaterThan(40);
    expect(await figure.getByRole("table").innerText()).not.toMatch(/NaN|undefined/);
    await page.getByTestId("accept").click();
    await soundIs(page, "silent");
    await page.getByTestId("phrase-slur").click();
    await page.getByTestId("phrase-state").filter({ hasText: "Now: what if, 5.04 mm" }).waitFor();
    await page.getByTestId("phrase-state").filter({ hasText: "Now: compared with, 2.50 mm" }).waitFor();
    await page.keyboard.press("Escape");
    await soundIs(page, "silent");
    expectQuiet(visited);
  });

  it("says in words that there is no MIDI and no sound; everything else works", async () => {
    const { page } = await open({
      before: [
        () => {
          Object.defineProperty(window, "AudioContext", { value: undefined });
          Object.defineProperty(Navigator.prototype, "requestMIDIAccess", {
            value: () => Promise.reject(new Error("refused")),
          });
        },
      ],
    });
    await page.getByTestId("accept").click();
    await page.getByText(/makes no live sound here/).waitFor();
    await page.getByTestId("midi").click();
    await page.getByTestId("midi-state").filter({ hasText: "refused MIDI" }).waitFor();
    await page.getByTestId("phrase-slur").click();
    await page.locator("[data-testid=phrase] svg").waitFor();
  });
});

describe("the playing sheet for everyone", () => {
  it("is sound at every width and in every colour, silent, and while it sounds", async () => {
    const visited = await open();
    const { page } = visited;
    await expectSoundEverywhere(page, "play-silent");
    await page.getByTestId("accept").click();
    await page.getByTestId("sound-state").filter({ hasText: "silent" }).waitFor();
    await page.getByTestId("phrase-slur").click();
    await page.locator("[data-testid=phrase] svg").waitFor();
    await page.getByTestId("stop-sound").click();
    await page.getByTestId("sound").click();
    await page.getByTestId("regime").filter({ hasText: /\d/ }).waitFor();
    await expectSound(page);
    await picture(page, "play-sounding");
    expectQuiet(visited);
  });
});
