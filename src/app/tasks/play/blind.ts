/** Which of two gaps is A and which is B, unknown to who listens: a round is guessed and told, and the next is dealt anew. */

export type Which = "chosen" | "reference";
export type Letter = "A" | "B";

export interface Blind {
  /** What sounds as A; the other is B. */
  readonly a: Which;
  readonly heard: Letter;
  /** Which letter was taken for the wider gap; null until guessed. */
  readonly guess: Letter | null;
  readonly right: number;
  readonly of: number;
}

/** @param heads a throw of a coin */
export const dealt = (heads: boolean, { right, of } = { right: 0, of: 0 }): Blind => ({
  a: heads ? "chosen" : "reference",
  heard: "A",
  guess: null,
  right,
  of,
});

/** What sounds as this letter. */
export const soundOf = ({ a }: Pick<Blind, "a">, letter: Letter): Which =>
  letter === "A" ? a : a === "chosen" ? "reference" : "chosen";

/** The round with a guess, which counts once. */
export function guessed(blind: Blind, letter: Letter, wider: Which): Blind {
  if (blind.guess !== null) return blind;
  const isRight = soundOf(blind, letter) === wider;
  return { ...blind, guess: letter, right: blind.right + (isRight ? 1 : 0), of: blind.of + 1 };
}

/** A throw of a fair coin. */
export const coin = (): boolean => crypto.getRandomValues(new Uint8Array(1))[0] < 128;
