/** The same value, with every object in it frozen. For trees: plain objects and arrays without cycles. */
export function deepFreeze<T>(value: T): T {
  if (typeof value !== "object" || value === null || Object.isFrozen(value)) return value;
  for (const part of Object.values(value)) deepFreeze(part);
  return Object.freeze(value);
}
