/** A recording from a file: WAV is read as it is, anything else by the browser's own decoders. */
import type { Decoded } from "../../../workers/microphone/listen.ts";

/** What the file chooser offers. */
export const SOUND_FILE = {
  description: "Recording",
  mimeTypes: ["audio/*"],
  extensions: [".wav", ".flac", ".mp3", ".m4a", ".ogg", ".opus", ".webm"],
  id: "recordings",
};

/** A browser decodes a whole file at once, and 15 MB of MP3 become half a gigabyte. */
const MOST_BYTES = 15e6;
const MOST_WAV_BYTES = 200e6;
const RATE_HZ = 48_000;

export async function isWav(file: Blob): Promise<boolean> {
  const head = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  const isRiff = String.fromCharCode(...head) === "RIFF";
  return isRiff && file.size <= MOST_WAV_BYTES;
}

export async function decodedFile(file: File): Promise<Decoded | { readonly refused: string }> {
  if (file.size === 0) return { refused: `${file.name} is empty; open a recording.` };
  if (file.size > MOST_BYTES)
    return {
      refused: `${file.name} is too long to be opened whole: cut out the take, some minutes at most.`,
    };
  try {
    const context = new OfflineAudioContext(1, 1, RATE_HZ);
    const buffer = await context.decodeAudioData(await file.arrayBuffer());
    const channels = Array.from({ length: buffer.numberOfChannels }, (_, i) => buffer.getChannelData(i));
    return { sampleRateHz: buffer.sampleRate, channels };
  } catch {
    return {
      refused: `${file.name} cannot be read here: it is no recording, or of a kind this browser does not know. WAV always works.`,
    };
  }
}
