/** What a player should know or do about a take, a sentence each. */
import type { ListenWarning } from "../../listen/warnings.ts";
import { percent } from "../numbers.ts";

const SIDES = { low: "down", high: "up" } as const;
const hertz = (hz: number): string => `${hz.toFixed(1)} Hz`;
const times = (count: number): string => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);

export function listenWarningWords(warning: ListenWarning): string {
  switch (warning.kind) {
    case "clipped":
      return `Too loud for the microphone: ${warning.samples} samples stand at the end of the scale. Move further away or turn the input down, and record again.`;
    case "too-quiet":
      return warning.levelDbfs === null
        ? "The recording is silent: check that the right microphone is chosen and switched on."
        : `Very quiet (${warning.levelDbfs.toFixed(0)} dB of full scale): move closer or turn the input up.`;
    case "noisy":
      return `The room is nearly as loud as the playing (${warning.signalToNoiseDb.toFixed(0)} dB below it): find a quieter place or move closer.`;
    case "telephone":
      return "This sounds like a telephone call: nothing above 4 kHz is in it. Calls change the level and drop what is soft; record in the room itself, with 16000 Hz or more.";
    case "hum":
      return `Only hum at ${hertz(warning.hz)} from the first moment to the last: that is the mains, not a player.`;
    case "nothing-heard":
      return "No note was heard that this test could use: check that the right note, test and recording were chosen.";
    case "other-sounds":
      return `Something else sounds between the notes for ${warning.seconds.toFixed(1)} s (somebody talking?). It is left out; record again where it is quiet.`;
    case "unclear":
      return `For ${percent(warning.share)} of the sound no single pitch can be heard. Two players, talk or a call on the line? Record one player alone.`;
    case "mixed":
      return `For ${percent(warning.share)} of the notes something else sounds with them (another player, talk, a ring tone?): do not trust the last cents.`;
    case "unsteady":
      return `A note wavers by ${warning.scatterCents.toFixed(0)} cents (standard deviation): vibrato, or not held still.`;
    case "beating":
      return `A held note swells and fades ${times(warning.count)}, as two players do who are a little out of tune. Record one player alone, without flutter or tremolo.`;
    case "wrong-note":
      return `A note of ${hertz(warning.hz)} was played where ${hertz(warning.nearHz)} was meant.`;
    case "unlisted-note":
      return `A note of ${hertz(warning.hz)} was held that is none of those listed: list every note that exists, neighbours included.`;
    case "no-bend":
      return `No bend ${SIDES[warning.side]} was found that broke or stopped: that end of the slot and its width stay unknown.`;
    case "one-bend":
      return `Only one bend ${SIDES[warning.side]}: how well that end repeats is unknown. Bend each way three times or more.`;
    case "mixed-ends":
      return `Of the bends ${SIDES[warning.side]}, some broke into another note and some only stopped.`;
    case "turned-back":
      return `The pitch came back ${times(warning.count)} before the note broke or stopped: such half bends are not counted.`;
    case "cut-off":
      return "The recording ends within a bend, which is not counted.";
    case "interrupted":
      return `The sound stopped ${times(warning.count)} between two notes: that is no slur and is not counted.`;
    case "stayed":
      return `A note was held as long as two or more (${times(warning.count)}): taken as a slur that never moved, and counted as missed.`;
    case "pair-unsure":
      return `Taken as slurs between ${hertz(warning.hz[0])} and ${hertz(warning.hz[1])}, but a third note sounds nearly as long: if others were meant, these results are wrong.`;
    case "few":
      return `Only ${warning.count} ${warning.of}: the share missed is hardly known. Play ten or more.`;
  }
}
