/** What the page may ask the worker that makes voices. Questions are about the setup loaded last; imports types only. */
import type { Lips } from "../src/lips/lips.ts";
import type { Setup } from "../src/setup/setup.ts";
import type { Performance, PhraseName } from "../src/study/feel/phrase.ts";
import type { VoiceAtGap } from "../src/study/feel/voice.ts";
import type { Refusal } from "./modelProtocol.ts";

/** Arrays are transferred. */
export interface VoiceWorker {
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  voice(gapMm: number, sampleRate: number, lips: Lips): Promise<Refusal | VoiceAtGap>;
  /** The phrase at each gap, with the movement of the lips that suits the reference gap. */
  perform(
    phrase: PhraseName,
    gapsMm: readonly number[],
    referenceGapMm: number,
    lips: Lips,
  ): Promise<Refusal | readonly Performance[]>;
}
