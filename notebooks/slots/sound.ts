/** A leap as it is heard a metre before the bell; only on a press, quiet at first, by the page's own way of the sound. */
import { Voice } from "../../src/app/tasks/play/voice.ts";
import { openVoiceWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import { DEFAULT_LIPS } from "../../src/study/feel/lipParameters.ts";
import { demo } from "../paper/demo.ts";
import { type FollowedLeap, rate } from "./leap.ts";

/** Of full scale. */
const quiet = 0.2;
const client = new WorkerClient({ connect: openVoiceWorker });
let playing: AudioContext | null = null;

/** Plays it once; a press while it plays begins anew. */
async function play({ pressures, aim }: FollowedLeap, gapMm: number): Promise<void> {
  void playing?.close();
  const context = new AudioContext();
  playing = context;
  const voice = await client.ask(demo, (worker) => worker.voice(gapMm, context.sampleRate, DEFAULT_LIPS));
  if ("refused" in voice) throw new RangeError(voice.refused);
  const heard = await Voice.open(context, voice, aim.lipHz, quiet);
  await heard.perform([{ pressures, sampleRate: rate, radiation: voice.radiation }], () => {});
  if (playing !== context) return;
  playing = null;
  await context.close();
}

/** A button that plays the leap, and says in words what became of it. */
export function listenButton(leap: FollowedLeap, gapMm: number): HTMLElement {
  const block = document.createElement("p");
  block.className = "listen";
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Hear this slur";
  const state = document.createElement("span");
  state.setAttribute("role", "status");
  button.addEventListener("click", async () => {
    state.textContent = "playing";
    try {
      await play(leap, gapMm);
      state.textContent = "played";
    } catch (error) {
      // a newer press closed this one's sound
      if (playing === null) return;
      state.textContent = `No sound: ${error instanceof Error ? error.message : error}`;
    }
  });
  block.append(button, state);
  return block;
}
