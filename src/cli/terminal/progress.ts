/** How far long work is: one line that is written over, where a person looks on; nothing in a file or another program. */

/** In place of what stood there; null wipes it away. */
export function showProgress(text: string | null): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\x1b[K${text ?? ""}`);
}

/** `gap 3 of 12`, gone after the last. */
export const counting =
  (what: string) =>
  (done: number, of: number): undefined =>
    void showProgress(done < of ? `${what} ${done} of ${of}` : null);

/** The answer of steps, each shown as it says; null shows nothing. */
export function watch<Step, Answer>(
  steps: Generator<Step, Answer, unknown>,
  words: (step: Step) => string,
): Answer {
  for (;;) {
    const { done, value } = steps.next();
    showProgress(done ? null : words(value));
    if (done) return value;
  }
}
