/**
 * From the sound to the strip's drawn pitch, in the page: a microphone that the page makes itself sounds notes at known moments of its
 * clock, and a note is there with the first frame after the strip has one line more. The browser's own way from its clock to the
 * page's microphone is in it, that of a sound card is not.
 */
import type { Row } from "./bench.ts";
import { AT, type PageBench } from "./chromium.ts";

const NOTES = 14;

declare global {
  interface Window {
    /** Sounds the notes; for each, ms from its beginning until it is drawn, or until it is in the page's microphone. */
    annulusDelays?: (hz: number, notes: number, until: "drawn" | "heard", strip: string) => Promise<number[]>;
  }
}

/** Runs in the page, before its own scripts. */
function microphoneOfNotes(): void {
  let source: {
    context: AudioContext;
    gain: GainNode;
    oscillator: OscillatorNode;
    microphone: MediaStreamAudioDestinationNode;
  } | null = null;
  navigator.mediaDevices.getUserMedia = async () => {
    const context = new AudioContext({ latencyHint: "interactive" });
    await context.resume();
    const oscillator = new OscillatorNode(context, { type: "sawtooth" });
    const gain = new GainNode(context, { gain: 0 });
    const microphone = new MediaStreamAudioDestinationNode(context, { channelCount: 1 });
    oscillator.connect(gain).connect(microphone);
    oscillator.start();
    source = { context, gain, oscillator, microphone };
    return microphone.stream;
  };
  window.annulusDelays = async (hz, notes, until, at) => {
    const { context, gain, oscillator, microphone } = source!;
    oscillator.frequency.value = hz;
    const strip = () => window.bench.find(at)?.shadowRoot;
    const lines = () =>
      strip()?.querySelector("[data-part=pitch]")?.getAttribute("d")?.match(/M/g)?.length ?? 0;
    const drawnAfter = (before: number) =>
      new Promise<number>((resolve) => {
        const observer = new MutationObserver(() => {
          if (lines() <= before) return;
          observer.disconnect();
          requestAnimationFrame(() => resolve(performance.now()));
        });
        observer.observe(strip()!, { childList: true, subtree: true, attributes: true });
        setTimeout(() => resolve(Number.NaN), 1500);
      });
    const ears = new AudioContext({ latencyHint: "interactive" });
    const ear = new AnalyserNode(ears, { fftSize: 128 });
    new MediaStreamAudioSourceNode(ears, { mediaStream: microphone.stream }).connect(ear);
    const samples = new Float32Array(128);
    const turn = new MessageChannel();
    const heardNext = async () => {
      for (const start = performance.now(); performance.now() - start < 1500; ) {
        ear.getFloatTimeDomainData(samples);
        if (samples.some((x) => Math.abs(x) > 0.01)) return performance.now();
        await new Promise((resolve) => {
          turn.port1.onmessage = resolve;
          turn.port2.postMessage(null);
        });
      }
      return Number.NaN;
    };
    // the clock is told in steps, and late: the earliest it was ever told is nearest to it
    let zero = Infinity;
    const delays: number[] = [];
    const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
    for (let note = 0; note < notes; note++) {
      for (let i = 0; i < 40; i++) {
        await sleep(4);
        zero = Math.min(zero, performance.now() - 1000 * context.currentTime);
      }
      const before = lines();
      // nowhere near the rhythm of blocks and frames
      const from = context.currentTime + 0.15 + 0.0137 * (note % 7);
      gain.gain.setValueAtTime(0.3, from);
      gain.gain.setValueAtTime(0, from + 0.25);
      const there = await (until === "drawn" ? drawnAfter(before) : heardNext());
      delays.push(there - zero - 1000 * from);
      await sleep(300);
    }
    await ears.close();
    return delays;
  };
}

const rows = (drawn: number | null, heard: number | null): Row[] => [
  {
    name: "page: from a note's sound to its drawn pitch, 466 Hz, median",
    value: drawn,
    goal: 80,
    unit: "ms",
    better: "less",
  },
  {
    name: "of which at least, before it is in the page's microphone",
    value: heard,
    goal: null,
    unit: "ms",
    better: "less",
  },
];

export const ABSENT_LISTEN_DELAY = rows(null, null);

export async function listenDelayRows({ visit }: PageBench): Promise<Row[]> {
  const page = await visit({
    hash: "#listen",
    before: (context) => context.addInitScript(microphoneOfNotes),
  });
  await page.getByTestId("listen").click();
  await page.getByTestId("listen-state").filter({ hasText: "Play." }).waitFor({ timeout: 20_000 });
  const seenUntil = async (until: "drawn" | "heard") => {
    const delays = await page.evaluate(
      ([notes, what, at]) => window.annulusDelays!(466.16, notes, what, at),
      [NOTES, until, AT.strip] as const,
    );
    const seen = delays.filter(Number.isFinite).sort((a, b) => a - b);
    if (process.env.DELAYS) console.error(seen.map((one) => one.toFixed(1)).join(" "));
    if (seen.length < NOTES - 2) throw new Error(`only ${seen.length} of ${NOTES} notes were ${until}`);
    return seen;
  };
  const drawn = await seenUntil("drawn");
  // the machine's own noise only ever adds
  return rows(drawn[Math.floor(drawn.length / 2)], (await seenUntil("heard"))[0]);
}
