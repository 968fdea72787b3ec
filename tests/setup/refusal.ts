import { expect } from "vitest";
import { type Problem, SetupError } from "../../src/setup/problem.ts";

/** The problems with which `read` refuses; each is checked for being fit for a person's eyes. */
export function refusal(read: () => unknown): readonly Problem[] {
  try {
    read();
  } catch (error) {
    expect(error).toBeInstanceOf(SetupError);
    const { message, problems } = error as SetupError;
    expect(problems.length).toBeGreaterThan(0);
    expect(message).toMatch(/^[^\n\r]{1,700}$/u);
    expect(problems.filter(({ message }) => !isPlainLine(message))).toEqual([]);
    return problems;
  }
  return [];
}

function isPlainLine(line: string): boolean {
  // What stands in quotes is the file's own text.
  const ownWords = line.replace(/"(?:[^"\\]|\\.)*"/g, '""');
  return (
    /^[^\n\r]{1,600}$/u.test(line) &&
    !/undefined|NaN|Infinity|\[object|Error:|\.ts\b|\.js\b|\$ref/.test(ownWords)
  );
}
