/** A keyboard by MIDI: a note sets the lips' pitch, velocity and the breath controller the pressure, the wheel bends. */
import type { Blowing } from "../../../lips/oscillator.ts";

export type MidiEvent =
  | { readonly kind: "note"; readonly note: number /** 0 to 1 */; readonly velocity: number }
  | { readonly kind: "release"; readonly note: number }
  /** 0 to 1 */
  | { readonly kind: "breath"; readonly breath: number }
  | { readonly kind: "bend"; readonly cents: number };

/** Of the wheel at its end, the usual setting of keyboards. */
const BEND_CENTS = 200;

/** What a message says; null for what is not played with. */
export function readMidi([status = 0, first = 0, second = 0]: ArrayLike<number> &
  Iterable<number>): MidiEvent | null {
  switch (status & 0xf0) {
    case 0x90:
      // a note with velocity 0 is the usual way to end one
      return second > 0
        ? { kind: "note", note: first, velocity: second / 127 }
        : { kind: "release", note: first };
    case 0x80:
      return { kind: "release", note: first };
    case 0xb0:
      return first === 2 ? { kind: "breath", breath: second / 127 } : null;
    case 0xe0:
      return { kind: "bend", cents: (BEND_CENTS * (first + 128 * second - 8192)) / 8192 };
    default:
      return null;
  }
}

export interface MidiPlayer {
  readonly blow: (blown: Partial<Blowing>) => void;
  readonly start: () => void;
  readonly stop: () => void;
}

/** Plays what comes: the last key pressed counts, letting it go ends the sound. @param mostPressure of full breath, Pa */
export function midiPlayer(player: MidiPlayer, mostPressure: number): (event: MidiEvent) => void {
  let held: number | null = null;
  let bend = 0;
  const lips = () => held !== null && player.blow({ lipHz: 440 * 2 ** ((held - 69) / 12 + bend / 1200) });
  return (event) => {
    switch (event.kind) {
      case "note":
        held = event.note;
        lips();
        player.blow({ mouthPressure: event.velocity * mostPressure });
        player.start();
        break;
      case "release":
        if (event.note !== held) return;
        held = null;
        player.stop();
        break;
      case "breath":
        player.blow({ mouthPressure: event.breath * mostPressure });
        break;
      case "bend":
        bend = event.cents;
        lips();
    }
  };
}

/**
 * Listens to every keyboard there is, also to those plugged in later, until told to end.
 * @returns the keyboards' names
 * @throws an Error in words where the browser offers none or the person refuses
 */
export async function listenToMidi(
  play: (event: MidiEvent) => void,
  signal: AbortSignal,
): Promise<() => string[]> {
  if (!("requestMIDIAccess" in navigator))
    throw new Error("This browser offers no MIDI; play with the pad, the sliders or the keys.");
  const access = await navigator.requestMIDIAccess().catch(() => {
    throw new Error("The browser refused MIDI; allow it for this page, or play with the pad or the keys.");
  });
  const listen = () => {
    for (const input of access.inputs.values())
      input.onmidimessage = ({ data }) => {
        const event = data && !signal.aborted ? readMidi(data) : null;
        if (event) play(event);
      };
  };
  listen();
  access.onstatechange = listen;
  signal.addEventListener("abort", () => {
    access.onstatechange = null;
    for (const input of access.inputs.values()) input.onmidimessage = null;
  });
  return () => Array.from(access.inputs.values(), ({ name }) => name ?? "a keyboard without a name");
}
