/** Work in a worker as a cell follows it: the last answer stays, greyed, until the new one is there, with how far that is. */
import { html, nothing, render } from "lit";
import type { Refusal } from "../../workers/service/served.ts";

export interface Course<Question, Result> {
  /** The last answer and what it is of; null before the first. */
  readonly answer: { readonly question: Question; readonly result: Result } | null;
  /** Share done of the newest question, 0 to 1; null once its answer is there. */
  readonly progress: number | null;
}

/** Asks a worker; null comes back from work that newer work has ended. */
export type Ask<Question, Result> = (
  question: Question,
  tell: (done: number, of: number) => void,
  signal: AbortSignal,
) => Promise<Result | Refusal | null>;

/** Before work begins, ms: a hand that still moves would begin and end it at every step. */
const REST_MS = 250;

/**
 * A cell's way to a worker: for each question a course of values, which ends the work when the cell is computed anew.
 * @throws RangeError from the course, in the words of whoever refused
 */
export function following<Question, Result extends object>(ask: Ask<Question, Result>) {
  let answer: Course<Question, Result>["answer"] = null;
  return async function* course(question: Question): AsyncGenerator<Course<Question, Result>, void, void> {
    const ended = new AbortController();
    try {
      yield { answer, progress: 0 };
      await new Promise((rested) => setTimeout(rested, REST_MS));
      let progress = 0;
      let step = () => {};
      const asked = ask(
        question,
        (done, of) => {
          progress = done / of;
          step();
        },
        ended.signal,
      );
      for (;;) {
        const stepped = new Promise<"stepped">((resolve) => {
          step = () => resolve("stepped");
        });
        const news = await Promise.race([asked, stepped]);
        if (news === null) return;
        if (news === "stepped") yield { answer, progress };
        else if ("refused" in news) throw new RangeError(news.refused);
        else {
          answer = { question, result: news };
          yield { answer, progress: null };
          return;
        }
      }
    } finally {
      ended.abort();
    }
  };
}

/** The last answer as it is drawn, and beside it how far the next one is. */
export function shown<Question, Result>(
  { answer, progress }: Course<Question, Result>,
  what: string,
  draw: (result: Result, question: Question) => unknown,
): HTMLElement {
  const block = document.createElement("div");
  block.setAttribute("aria-busy", `${progress !== null}`);
  render(
    html`
      <p class="progress" role="status">${progress === null ? nothing : `${what}: ${Math.round(100 * progress)} % computed`}</p>
      <div class=${progress === null ? "" : "stale"}>${answer ? draw(answer.result, answer.question) : nothing}</div>
    `,
    block,
  );
  return block;
}
