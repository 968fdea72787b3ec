/** A WAV file's samples, block by block as its bytes come, so that a long take is never in memory as a whole. */
import { decoder } from "@audio/decode-wav";
import { InputError } from "../units/inputError.ts";

export interface SoundBlock {
  readonly sampleRateHz: number;
  /** One array of samples, −1 to 1, a channel. */
  readonly channels: readonly Float32Array[];
}

const WANTED = "give an uncompressed recording, WAV of 16 or 24 bits";
/** Nothing slower carries the harmonics that pitch is heard by. */
const LEAST_RATE_HZ = 8000;
const MOST_RATE_HZ = 768_000;

/** @param chunks the file's bytes, cut anywhere @throws {InputError} where they are no WAV file, or one without sound */
export function* wavBlocks(chunks: Iterable<Uint8Array>): Generator<SoundBlock, void> {
  const wav = decoder();
  let bytes = 0;
  let samples = 0;
  for (const chunk of chunks) {
    bytes += chunk.length;
    const { channelData: channels, sampleRate: sampleRateHz } = decoded(wav, chunk);
    if (channels.length === 0 || channels[0].length === 0) continue;
    if (samples === 0 && !(sampleRateHz >= LEAST_RATE_HZ && sampleRateHz <= MOST_RATE_HZ))
      throw new InputError(
        `its sample rate is ${sampleRateHz} Hz; record with 16000 Hz or more (${LEAST_RATE_HZ} Hz is the least)`,
      );
    samples += channels[0].length;
    yield { sampleRateHz, channels };
  }
  wav.free();
  if (bytes === 0) throw new InputError(`the file is empty; ${WANTED}`);
  if (samples === 0)
    throw new InputError(`there is no sound in it, or it was cut off at its head; ${WANTED}`);
}

function decoded(wav: ReturnType<typeof decoder>, chunk: Uint8Array) {
  try {
    return wav.decode(chunk);
  } catch (error) {
    // the package says what it cannot read by a TypeError
    if (!(error instanceof TypeError) && !(error instanceof RangeError)) throw error;
    throw new InputError(
      /^Unsupported WAV/.test(error.message)
        ? `this kind of WAV cannot be read (${error.message}); ${WANTED}`
        : `this is no WAV file; ${WANTED}`,
    );
  }
}
