/**
 * Long work a step at a time, so that other questions have their turn; a newer ticket or a stop ends it. And what was
 * computed, or why it could not be, as data.
 */
import { SetupError } from "../src/setup/problem.ts";
import type { Refusal } from "./modelProtocol.ts";
import { Turns } from "./turns.ts";

export class LongWork<Subject extends object> {
  /** Work up to this ticket is to stop. */
  #stopped = 0;
  #newest = 0;

  /**
   * Null when it was overtaken.
   * @param subject what the work is about, or why there is none; awaited, as messages keep their order
   * @param tell called after every step
   */
  async run<Step, Result>(
    ticket: number,
    subject: Promise<Subject | Refusal>,
    begin: (subject: Subject) => Generator<Step, Result, void>,
    tell: (step: Step) => void,
  ): Promise<Refusal | Result | null> {
    this.#newest = Math.max(this.#newest, ticket);
    const about = await subject;
    if (isRefusal(about)) return about;
    const overtaken = () => ticket < this.#newest || ticket <= this.#stopped;
    const steps = begin(about);
    const turns = new Turns();
    try {
      for (;;) {
        await turns.next();
        if (overtaken()) return null;
        const step = answered(() => steps.next());
        if ("refused" in step) return step;
        if (step.done) return step.value;
        tell(step.value);
      }
    } finally {
      turns.end();
    }
  }

  /** Stops the work of this ticket and any older one. */
  stop(ticket: number): void {
    this.#stopped = Math.max(this.#stopped, ticket);
  }

  /** Whatever was asked for is about something that is gone. */
  stopAll(): void {
    this.#stopped = this.#newest;
  }
}

export const isRefusal = (answer: object): answer is Refusal => "refused" in answer;

/** What was computed, or why it could not be: refused in the study's words, or a fault of ours, named as one. */
export function answered<T>(compute: () => T): T | Refusal {
  try {
    return compute();
  } catch (error) {
    if (error instanceof SetupError || error instanceof RangeError) return { refused: error.message };
    return { refused: `The model failed, which is a fault in this program: ${error}` };
  }
}
