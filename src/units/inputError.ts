/** What a person typed could not be read. The message is one line of plain English: what was typed, what would be accepted. */
export class InputError extends Error {
  override name = "InputError";
}

/** What was typed, in quotes and on one line, shortened so that a pasted page cannot flood a message. */
export const quoteTyped = (typed: string): string =>
  JSON.stringify(typed.length > 40 ? `${typed.slice(0, 39)}…` : typed).replace(/\p{Surrogate}/gu, "�");
