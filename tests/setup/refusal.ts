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
    for (const problem of problems) expectPlainLine(problem.message);
    return problems;
  }
  return [];
}

function expectPlainLine(line: string): void {
  expect(line).toMatch(/^[^\n\r]{1,600}$/u);
  // What stands in quotes is the file's own text.
  const ownWords = line.replace(/"(?:[^"\\]|\\.)*"/g, '""');
  expect(ownWords).not.toMatch(/undefined|NaN|Infinity|\[object|Error:|\.ts\b|\.js\b|\$ref/);
}
