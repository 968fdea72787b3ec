/** Parsed JSON that is a record of named values, and nothing else that JavaScript calls an object. */
export const isRecord = (json: unknown): json is Readonly<Record<string, unknown>> =>
  typeof json === "object" && json !== null && !Array.isArray(json);
