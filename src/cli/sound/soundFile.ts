import { readFileSync } from "node:fs";
import { InputError, type Sound, wavBlocks } from "../../index.ts";
import { cannotBeRead } from "../terminal/fileText.ts";

/** Every channel of a WAV file, or of standard input where the path is -. */
export function soundOf(path: string): Sound[] {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path === "-" ? 0 : path);
  } catch (error) {
    throw cannotBeRead(path, error, "a recording");
  }
  try {
    const blocks = [...wavBlocks([bytes])];
    const rate = blocks[0].sampleRateHz;
    return blocks[0].channels.map((_, channel) => {
      const samples = new Float32Array(
        blocks.reduce((sum, { channels }) => sum + channels[channel].length, 0),
      );
      blocks.reduce((at, { channels }) => {
        samples.set(channels[channel], at);
        return at + channels[channel].length;
      }, 0);
      return { samples, rate };
    });
  } catch (error) {
    if (error instanceof InputError)
      throw new InputError(`${path === "-" ? "standard input" : path}: ${error.message}`);
    throw error;
  }
}
