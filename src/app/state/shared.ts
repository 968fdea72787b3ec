/**
 * `next` with every part that is as it was in `old` taken from `old`: whoever compares parts by identity sees only what
 * has changed. Gives `old` itself where nothing has. For trees: plain objects and arrays without cycles.
 */
export function shared<T>(old: T, next: T): T {
  if (Object.is(old, next)) return old;
  if (typeof old !== "object" || typeof next !== "object" || old === null || next === null) return next;
  if (Array.isArray(old) !== Array.isArray(next)) return next;
  const before = old as Record<string, unknown>;
  const parts = Object.entries(next).map(
    ([key, part]) => [key, Object.hasOwn(before, key) ? shared(before[key], part) : part] as const,
  );
  const isSame =
    parts.length === Object.keys(before).length &&
    parts.every(([key, part]) => Object.hasOwn(before, key) && Object.is(before[key], part));
  if (isSame) return old;
  return (Array.isArray(next) ? parts.map(([, part]) => part) : Object.fromEntries(parts)) as T;
}
