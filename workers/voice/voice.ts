/** The voices of the live instrument as a worker serves them. */
import { transfer } from "comlink";
import type { Lips } from "../../src/lips/valve.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { type Performance, PHRASES, type PhraseName, perform } from "../../src/study/feel/phrase.ts";
import { type VoiceAtGap, Voices } from "../../src/study/feel/voice.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { isRefusal, type Refusal, Served } from "../service/served.ts";

export class VoiceMaker extends Served<Voices> {
  protected subjectOf(setup: Setup): Voices {
    return new Voices(new Instrument(setup, { modes: MODAL_COUNT }));
  }

  async voice(gapMm: number, sampleRate: number, lips: Lips): Promise<Refusal | VoiceAtGap> {
    const made = await this.ask((voices) => voices.at(gapMm, sampleRate, lips));
    if (isRefusal(made)) return made;
    // the modes are kept for the next question, and copied by the message instead
    return transfer(made, [made.radiation.buffer]);
  }

  /** The phrase at each gap, with the movement of the lips that suits the reference gap. */
  async perform(
    phrase: PhraseName,
    ...question: [gapsMm: readonly number[], referenceGapMm: number, lips: Lips]
  ): Promise<Refusal | readonly Performance[]> {
    const played = await this.ask(({ instrument }) => perform(instrument, PHRASES[phrase], ...question));
    return isRefusal(played)
      ? played
      : transfer(
          played,
          played.map(({ pressures }) => pressures.buffer),
        );
  }
}
