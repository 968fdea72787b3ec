/** A high-pass of second order, Butterworth's, by the bilinear transform (Oppenheim & Schafer 2010, §7.1). */
export class HighPass {
  readonly #gain: number;
  readonly #a1: number;
  readonly #a2: number;
  #x1 = 0;
  #x2 = 0;
  #y1 = 0;
  #y2 = 0;

  /** @param cycles corner over sampling rate */
  constructor(cycles: number) {
    const k = Math.tan(Math.PI * cycles);
    this.#gain = 1 / (1 + Math.SQRT2 * k + k * k);
    this.#a1 = 2 * (k * k - 1) * this.#gain;
    this.#a2 = (1 - Math.SQRT2 * k + k * k) * this.#gain;
  }

  next(x: number): number {
    const y = this.#gain * (x - 2 * this.#x1 + this.#x2) - this.#a1 * this.#y1 - this.#a2 * this.#y2;
    this.#x2 = this.#x1;
    this.#x1 = x;
    this.#y2 = this.#y1;
    this.#y1 = y;
    return y;
  }
}
