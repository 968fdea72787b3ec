/** The voices as the page's worker serves them. */
import { transfer } from "comlink";
import type { Setup } from "../src/setup/setup.ts";
import { MODAL_COUNT } from "../src/study/feel/modalColumn.ts";
import { PHRASES, perform } from "../src/study/feel/phrase.ts";
import { Voices } from "../src/study/feel/voice.ts";
import { Instrument } from "../src/study/instrument/instrument.ts";
import { answered, isRefusal } from "./longWork.ts";
import type { Refusal } from "./modelProtocol.ts";
import type { VoiceWorker } from "./voiceProtocol.ts";

export class VoiceMaker implements VoiceWorker {
  #voices: Voices | Refusal = { refused: "no setup is loaded" };

  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#voices = answered(() => new Voices(new Instrument(setup, { modes: MODAL_COUNT })));
    return isRefusal(this.#voices) ? this.#voices : { ok: true };
  }

  async voice(...[gapMm, sampleRate, lips]: Parameters<VoiceWorker["voice"]>) {
    const made = this.#ask((voices) => voices.at(gapMm, sampleRate, lips));
    if (isRefusal(made)) return made;
    const { modes, radiation } = made;
    return transfer(made, [modes.poles.buffer, modes.residues.buffer, radiation.buffer]);
  }

  async perform(...[phrase, ...question]: Parameters<VoiceWorker["perform"]>) {
    const played = this.#ask(({ instrument }) => perform(instrument, PHRASES[phrase], ...question));
    return isRefusal(played)
      ? played
      : transfer(
          played,
          played.map(({ pressures }) => pressures.buffer),
        );
  }

  #ask<T>(question: (voices: Voices) => T): T | Refusal {
    const voices = this.#voices;
    return isRefusal(voices) ? voices : answered(() => question(voices));
  }
}
