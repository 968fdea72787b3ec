/** What a task ends with: the way to the next. */
import { css, html, type TemplateResult } from "lit";
import { nextTask, TASKS_IN_ORDER } from "../../words/tasks.ts";
import { type Task, writeHash } from "./route.ts";

export function nextStep(task: Task): TemplateResult {
  const here = task === "edit" ? "explore" : task;
  const next = nextTask(here);
  const isLast = here === TASKS_IN_ORDER[TASKS_IN_ORDER.length - 1].task;
  return html`
    <nav class="next" aria-label="Next step">
      <a href=${writeHash(next.task)} data-testid="next-step">
        <b>${isLast ? "Back to" : "Next:"} ${next.name}</b> <span>${next.todo}</span>
      </a>
    </nav>
  `;
}

export const nextStepStyles = css`
  .next {
    padding: 0 var(--edge) 0.75rem;
  }
  .next a {
    display: inline-flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0 0.6rem;
    min-height: var(--touch);
    color: inherit;
    text-decoration: none;
  }
  .next b {
    text-decoration: underline;
    text-underline-offset: 0.2em;
  }
  .next a:focus-visible {
    outline: 2px solid var(--ink);
  }
  @media print {
    .next {
      display: none;
    }
  }
`;
