/**
 * What a worker serves: questions about the setup loaded last, and long work a step at a time, so that other questions have
 * their turn. Messages keep their order, so an answer is never about another setup than the one its question followed.
 */

import { SetupError } from "../../src/setup/problem.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { OutOfRange } from "../../src/units/outOfRange.ts";
import { Turns } from "./turns.ts";

/** An error as data: Comlink's own transfer of errors loses their kind. */
export interface Refusal {
  readonly refused: string;
}

/** Of long work: a newer one's number stops an older one. */
export interface Ticket {
  readonly ticket: number;
}

export type StepProgress = (done: number, of: number) => void;

/** @typeParam Subject what is made of a setup once, for all questions about it */
export abstract class Served<Subject extends object> {
  #subject: Promise<Subject | Refusal>;
  /** Work up to this ticket is to stop. */
  #stopped = 0;
  #newest = 0;

  /** @param subject what is asked about before anything is loaded, where there is such a thing */
  constructor(subject: Subject | Refusal = { refused: "no setup is loaded" }) {
    this.#subject = Promise.resolve(subject);
  }

  protected abstract subjectOf(setup: Setup): Subject | Promise<Subject>;

  /** Later questions are about this setup. Long work on the one before stops. */
  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#stopped = this.#newest;
    this.#subject = answered(() => this.subjectOf(setup));
    const subject = await this.#subject;
    return isRefusal(subject) ? subject : { ok: true };
  }

  /** Stops the long work of this ticket and any older one. */
  async stop(ticket: number): Promise<void> {
    this.#stopped = Math.max(this.#stopped, ticket);
  }

  protected async ask<T extends object>(
    question: (subject: Subject) => T | Promise<T>,
  ): Promise<T | Refusal> {
    const subject = await this.#subject;
    return isRefusal(subject) ? subject : answered(() => question(subject));
  }

  /**
   * Null when it was overtaken.
   * @param tell called after every step
   */
  protected async inSteps<Step, Result>(
    ticket: number,
    begin: (subject: Subject) => Generator<Step, Result, void> | Promise<Generator<Step, Result, void>>,
    tell: (step: Step) => void,
  ): Promise<Refusal | Result | null> {
    this.#newest = Math.max(this.#newest, ticket);
    const subject = await this.#subject;
    if (isRefusal(subject)) return subject;
    const steps = await answered(() => begin(subject));
    if (isRefusal(steps)) return steps;
    const turns = new Turns();
    try {
      for (;;) {
        await turns.next();
        if (ticket < this.#newest || ticket <= this.#stopped) return null;
        const step = await answered(() => steps.next());
        if ("refused" in step) return step;
        if (step.done) return step.value;
        tell(step.value);
      }
    } finally {
      turns.end();
    }
  }
}

export const isRefusal = (answer: object): answer is Refusal => "refused" in answer;

/** What was computed, or why it could not be: refused in the study's words, or a fault of ours, named as one. */
async function answered<T>(compute: () => T | Promise<T>): Promise<T | Refusal> {
  try {
    return await compute();
  } catch (error) {
    if (error instanceof SetupError || error instanceof OutOfRange) return { refused: error.message };
    return { refused: `The model failed, which is a fault in this program: ${error}` };
  }
}
