/** Keeps the live instrument's voices those of the document, and plays phrases on it. */
import type { Lips } from "../../../study/feel/lipParameters.ts";
import type { PhraseName } from "../../../study/feel/phrase.ts";
import type { Document } from "../../state/state.ts";
import { newest } from "../../work/newest.ts";
import { openVoiceWorker } from "../../work/openWorkers.ts";
import { sameToModel } from "../../work/sameToModel.ts";
import { WorkerClient } from "../../work/workerClient.ts";
import type { PlaySession } from "./session.ts";

/** What is asked about. */
type Played = Pick<Document, "setup" | "gapMm" | "referenceGapMm"> & { readonly lips: Lips };

export class VoiceFollower {
  readonly #session: PlaySession;
  readonly #client = new WorkerClient({ connect: openVoiceWorker });
  #played: Played | null = null;
  /** What the session's voices are of. */
  #answered: Played | null = null;

  constructor(session: PlaySession) {
    this.#session = session;
  }

  follow({ setup, gapMm, referenceGapMm }: Document, lips: Lips): void {
    const before = this.#played;
    const played = { setup, gapMm, referenceGapMm, lips };
    const isSame = before !== null && samePlayer(before, played);
    if (isSame && before.gapMm === gapMm && before.referenceGapMm === referenceGapMm) return;
    // another instrument or other lips begin from rest
    if (before && !isSame) this.#session.stop();
    this.#played = played;
    this.#ask(played);
  }

  /** The phrase at both gaps of the document, the chosen one first. */
  perform(phrase: PhraseName) {
    const { setup, gapMm, referenceGapMm, lips } = this.#played!;
    return this.#client.ask(setup, (worker) =>
      worker.perform(phrase, [gapMm, referenceGapMm], referenceGapMm, lips),
    );
  }

  close(): void {
    this.#client.close();
    this.#played = null;
  }

  readonly #ask = newest(async (played: Played): Promise<void> => {
    const { setup, gapMm, referenceGapMm, lips } = played;
    const session = this.#session;
    const known = this.#answered && samePlayer(this.#answered, played) ? session.value.voices : null;
    // while a hand moves one gap, the other is known
    const at = (mm: number, voice = known?.chosen?.gapMm === mm ? known.chosen : known?.reference) =>
      voice?.gapMm === mm
        ? voice
        : this.#client.ask(setup, (worker) => worker.voice(mm, session.sampleRate, lips));
    const chosen = await at(gapMm);
    // asking on after it was closed would start a worker that nobody ends
    if (this.#played === null) return;
    const reference = await at(referenceGapMm);
    if (this.#played === null) return;
    if ("refused" in chosen) session.refuse(chosen.refused);
    else if ("refused" in reference) session.refuse(reference.refused);
    else {
      this.#answered = played;
      session.setVoices({ chosen, reference });
    }
  });
}

const samePlayer = (a: Played, b: Played): boolean =>
  sameToModel(a.setup, b.setup) && JSON.stringify(a.lips) === JSON.stringify(b.lips);
