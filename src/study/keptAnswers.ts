/**
 * The last answers to what is asked again and again of one subject, such as an instrument, as long as that lives; the one
 * longest unasked goes first.
 */
export class KeptAnswers<Subject extends object, Answer> {
  readonly #answersOf = new WeakMap<Subject, Map<string, Answer>>();

  /** @param most how many are kept of each subject */
  constructor(readonly most: number) {}

  /** The subject's answer to this question, found if it is not kept. */
  to(subject: Subject, question: readonly unknown[], find: () => Answer): Answer {
    const answers = this.#answersOf.get(subject) ?? new Map<string, Answer>();
    this.#answersOf.set(subject, answers);
    const key = JSON.stringify(question);
    const answer = answers.has(key) ? answers.get(key)! : find();
    answers.delete(key);
    answers.set(key, answer);
    if (answers.size > this.most) answers.delete(answers.keys().next().value!);
    return answer;
  }
}
