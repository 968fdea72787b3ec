/** What the page and the audio worklet say to each other. Lives beside the worklet; imports types only. */
import type { Modes } from "../../src/lips/modes.ts";
import type { Blowing } from "../../src/lips/oscillator.ts";
import type { Valve } from "../../src/lips/valve.ts";

/** Names the processors are registered by. */
export const LIPS = "annulus-lips";
export const LIMITER = "annulus-limiter";

/** More is refused, Pa: room for every modelled note played loud; own choice, players may have more. */
export const MOST_MOUTH_PRESSURE = 16e3;

/** Lips on an air column. */
export interface Voiced {
  readonly valve: Valve;
  readonly modes: Modes;
}

/** `processorOptions` of the lips, which nobody blows yet. */
export interface LipsOptions extends Voiced {
  readonly lipHz: number;
}

/** Reached along a straight line within 20 ms. Other lips, or another number of modes, begin anew from rest. */
export type LipsMessage = ({ readonly kind: "column" } & Voiced) | ({ readonly kind: "blow" } & Blowing);

/** Some twenty times a second. */
export interface LipsReport extends Blowing {
  /** null where nothing sounds. */
  readonly frequencyHz: number | null;
  /** Which note that is, null between notes. */
  readonly note: number | null;
  /** Of the cup's pressure, Pa. */
  readonly peakToPeak: number;
}

/** A message that was not followed, in words; what was before goes on. */
export interface LipsRefusal {
  readonly refused: string;
}
