/** A vote before the answer: what follows it is not seen until the reader, or the class, has chosen. */
import { html, render } from "lit";
import type { Input } from "./inputs.ts";

export interface VoteOptions {
  readonly question: string;
  readonly options: readonly string[];
  /** How many of the cells that follow hold the answer. */
  readonly covers: number;
}

/** Its value is what was chosen, null before. */
export function vote({ question, options, covers }: VoteOptions): Input<string | null> {
  const block = document.createElement("fieldset") as unknown as Input<string | null>;
  block.value = null;
  block.className = "vote";
  const show = () =>
    render(
      html`
        <legend>Vote first: ${question}</legend>
        <div>
          ${options.map(
            (option) => html`
              <button type="button" aria-pressed=${option === block.value} @click=${() => choose(option)}>${option}</button>
            `,
          )}
        </div>
        <p role="status">${block.value === null ? "The answer comes after the vote." : `Your vote: ${block.value}. Now look.`}</p>
      `,
      block,
    );
  const choose = (option: string) => {
    block.value = option;
    for (const part of answerOf(block, covers)) part.classList.remove("covered");
    show();
    block.dispatchEvent(new Event("input", { bubbles: true }));
  };
  show();
  // the cell puts it on the sheet after this
  queueMicrotask(function cover(): void {
    if (!block.isConnected) requestAnimationFrame(cover);
    else if (block.value === null) for (const part of answerOf(block, covers)) part.classList.add("covered");
  });
  return block;
}

/** The cells that follow, and what stands between them. */
function answerOf(block: Element, covers: number): Element[] {
  const parts: Element[] = [];
  let cells = 0;
  let next = block.closest(".observablehq--cell")?.nextElementSibling ?? null;
  for (; next; next = next.nextElementSibling) {
    if (next.classList.contains("observablehq--cell") && ++cells > covers) break;
    parts.push(next);
  }
  return parts;
}
