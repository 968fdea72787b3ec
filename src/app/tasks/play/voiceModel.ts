/** A worker that makes voices, reached through Comlink; one that dies is replaced at the next question. */
import { type Remote, wrap } from "comlink";
import type { Refusal } from "../../../../workers/modelProtocol.ts";
import type { VoiceWorker } from "../../../../workers/voiceProtocol.ts";
import type { Setup } from "../../../setup/setup.ts";
import type { Lips } from "../../../study/feel/lipParameters.ts";
import type { Performance } from "../../../study/feel/phrase.ts";
import type { VoiceAtGap } from "../../../study/feel/voice.ts";
import { sameToModel } from "../../work/sameToModel.ts";

interface Connection {
  readonly worker: Worker;
  readonly remote: Remote<VoiceWorker>;
  /** Rejects when the worker has died. */
  readonly died: Promise<never>;
}

export class VoiceModel {
  #connection: Connection | null = null;
  #loaded: Setup | null = null;
  #loading: Promise<Refusal | { readonly ok: true }> | null = null;

  voice(setup: Setup, gapMm: number, sampleRate: number, lips: Lips): Promise<Refusal | VoiceAtGap> {
    return this.#ask(setup, (worker) => worker.voice(gapMm, sampleRate, lips));
  }

  perform(
    setup: Setup,
    ...question: Parameters<VoiceWorker["perform"]>
  ): Promise<Refusal | readonly Performance[]> {
    return this.#ask(setup, (worker) => worker.perform(...question));
  }

  close(): void {
    this.#connection?.worker.terminate();
    this.#connection = null;
    this.#loaded = null;
  }

  async #ask<T>(
    setup: Setup,
    question: (worker: Remote<VoiceWorker>) => Promise<T | Refusal>,
  ): Promise<T | Refusal> {
    try {
      this.#connection ??= connect();
      const { remote, died } = this.#connection;
      if (!this.#loading || !this.#loaded || !sameToModel(this.#loaded, setup)) {
        this.#loaded = setup;
        this.#loading = remote.load(setup);
      }
      // both are sent in one go, so that the question is about this setup
      const [loaded, answer] = await Promise.race([Promise.all([this.#loading, question(remote)]), died]);
      return "refused" in loaded ? loaded : answer;
    } catch {
      this.close();
      return { refused: "The worker that makes the voice ended; move the gap, or load the page again." };
    }
  }
}

function connect(): Connection {
  const worker = new Worker(new URL("../../../../workers/voice.worker.ts", import.meta.url), {
    type: "module",
  });
  const died = new Promise<never>((_, reject) => {
    for (const event of ["error", "messageerror"] as const)
      worker.addEventListener(event, () => reject(new Error(`the voice's worker ended: ${event}`)));
  });
  // nobody may be waiting for an answer when it dies
  died.catch(() => {});
  return { worker, remote: wrap<VoiceWorker>(worker), died };
}
