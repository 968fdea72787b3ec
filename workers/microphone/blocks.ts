/** A microphone's sound as it comes, block by block: how loud it is, and the blocks put together. */

/** Root mean square and largest sample of what came since it was read last. */
export class BlockLevel {
  #samples = 0;
  #sum = 0;
  #peak = 0;

  /** How many samples wait to be told of. */
  get samples(): number {
    return this.#samples;
  }

  push(block: Float32Array): void {
    for (const x of block) {
      this.#sum += x * x;
      this.#peak = Math.max(this.#peak, Math.abs(x));
    }
    this.#samples += block.length;
  }

  /** dB of full scale; null of digital silence. */
  read(): { readonly levelDbfs: number | null; readonly peakDbfs: number | null } {
    const level = {
      levelDbfs: decibels(Math.sqrt(this.#sum / Math.max(1, this.#samples))),
      peakDbfs: decibels(this.#peak),
    };
    this.#samples = 0;
    this.#sum = 0;
    this.#peak = 0;
    return level;
  }
}

export function joined(blocks: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(blocks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const block of blocks) {
    whole.set(block, at);
    at += block.length;
  }
  return whole;
}

const decibels = (amplitude: number): number | null => (amplitude > 0 ? 20 * Math.log10(amplitude) : null);
