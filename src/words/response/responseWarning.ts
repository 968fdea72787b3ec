/** What somebody should know or do about a recorded response, a sentence each. */
import type { ResponseWarning } from "../../response/response.ts";

const SHORT: Readonly<Record<string, string>> = {
  clipped: "too loud",
  "cut off": "cut off",
  noisy: "noisy",
  "not heard": "not heard",
  restless: "echoes, hum or a leak",
};

/** The same in a table's cell, of a kept take, whose warnings may be of a later version. */
export const shortWarning = (warning: string): string => SHORT[warning] ?? warning;

export const RESPONSE_WARNING: Readonly<Record<ResponseWarning, string>> = {
  clipped:
    "Too loud for the microphone: the recording stands at the end of the scale. Turn the input or the loudspeaker down, and record again.",
  "cut off":
    "The recording ends before the sweep does: start it before the sweep and stop it a second after.",
  noisy:
    "The sweep is hardly louder than the room: find a quieter place, move the microphone closer, or make several recordings.",
  "not heard":
    "The excitation is not in the recording: check that it was played, that the right microphone is on, and that the right excitation file is named.",
  restless:
    "Something besides resonances and noise is in the response: echoes of the room, a leak at the seal, hum, or a player and a recorder with different clocks. The intervals are wide for it, and what cannot be told is left out: move closer, seal the mouthpiece, use one device to play and record.",
};
