/** What a live voice needs at one gap: the lips in this air, the air column they work on, and the way from cup to ear. */
import { DEFAULT_LIPS } from "../../lips/lips.ts";
import { type Modes, resonanceCount, resonanceHz } from "../../lips/modes.ts";
import { checkLips, type Lips, type Valve } from "../../lips/valve.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { modalColumn } from "./modalColumn.ts";
import { RadiatedSound } from "./radiatedSound.ts";
import { valveIn } from "./slots.ts";

export interface VoiceAtGap {
  readonly gapMm: number;
  readonly valve: Valve;
  readonly modes: Modes;
  /** Resonance frequencies from the lowest, Hz. */
  readonly resonancesHz: readonly number[];
  /** Filter from the cup's pressure to the sound a metre before the bell, both in Pa. */
  readonly radiation: Float32Array<ArrayBuffer>;
}

/** The voices of one instrument; what no gap changes is computed once. */
export class Voices {
  readonly #radiated: RadiatedSound;

  /** @param instrument with as many resonances as the modal column shall have: `MODAL_COUNT` */
  constructor(readonly instrument: Instrument) {
    this.#radiated = new RadiatedSound(instrument.setup);
  }

  /** @throws OutOfRange in words for lips that cannot be, SetupError for a gap the receiver cannot have */
  at(gapMm: number, sampleRate: number, lips: Lips = DEFAULT_LIPS): VoiceAtGap {
    checkLips(lips);
    const modes = modalColumn(this.instrument, gapMm);
    return {
      gapMm,
      valve: valveIn(this.instrument, lips),
      modes,
      resonancesHz: Array.from({ length: resonanceCount(modes) }, (_, i) => resonanceHz(modes, i + 1)),
      radiation: this.#radiated.response(gapMm, sampleRate),
    };
  }
}
