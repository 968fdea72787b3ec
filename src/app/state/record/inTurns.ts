/** Work on the page's own thread, a step at a time: no longer at a stretch than a hand on the page would notice. */

const STRETCH_MS = 12;

/**
 * Null when it was stopped.
 *
 * @param tell called before every pause
 */
export async function inTurns<Step, Result>(
  steps: Generator<Step, Result, void>,
  tell: (step: Step) => void,
  signal: AbortSignal,
): Promise<Result | null> {
  let until = performance.now() + STRETCH_MS;
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() < until) continue;
    tell(step.value);
    await new Promise((done) => setTimeout(done));
    if (signal.aborted) return null;
    until = performance.now() + STRETCH_MS;
  }
}
