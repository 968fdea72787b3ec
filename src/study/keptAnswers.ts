/** The last answers to what is asked again and again, each by its question; the one longest unasked goes first. */
export class KeptAnswers<Answer> {
  readonly #answers = new Map<string, Answer>();

  /** @param most how many are kept */
  constructor(readonly most: number) {}

  /** The answer to this question, found if it is not kept. */
  to(question: readonly unknown[], find: () => Answer): Answer {
    const key = JSON.stringify(question);
    const answer = this.#answers.has(key) ? this.#answers.get(key)! : find();
    this.#answers.delete(key);
    this.#answers.set(key, answer);
    if (this.#answers.size > this.most) this.#answers.delete(this.#answers.keys().next().value!);
    return answer;
  }
}
