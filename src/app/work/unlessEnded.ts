/**
 * An answer, unless what it is asked of ends first. A race with a promise that lives as long as a worker would leave a reaction with
 * it for every answer, and each of those holds its answer until the worker is gone; here nothing is held once the answer is there.
 */

/** Who waits for an end that has not come. */
const waiting = new WeakMap<Promise<never>, Set<(reason: unknown) => void>>();

/** @param ends reject when there will be no answer any more; they never resolve */
export async function unlessEnded<T>(answer: Promise<T>, ends: readonly Promise<never>[]): Promise<T> {
  let end: (reason: unknown) => void = () => {};
  const ended = new Promise<never>((_, reject) => {
    end = reject;
  });
  const all = ends.map(waitingFor);
  for (const one of all) one.add(end);
  try {
    return await Promise.race([answer, ended]);
  } finally {
    for (const one of all) one.delete(end);
  }
}

function waitingFor(end: Promise<never>): Set<(reason: unknown) => void> {
  const known = waiting.get(end);
  if (known) return known;
  const those = new Set<(reason: unknown) => void>();
  waiting.set(end, those);
  end.catch((reason) => {
    // who asks from now on is told anew
    waiting.delete(end);
    for (const tell of those) tell(reason);
  });
  return those;
}
