/** What is being worked out of how it feels, how far it is, and a way to stop it; or why it cannot be. */
import { html, nothing, type TemplateResult } from "lit";
import { warning } from "../../shell/look/notice.ts";
import { stoppedLine, workLine } from "../../shell/look/workLine.ts";
import type { FeelKind } from "../../work/feelAsks.ts";
import type { FeelResults } from "../../work/feelResults.ts";

const WORDS: Readonly<Record<FeelKind, string>> = {
  stream: "the steady air flow",
  felt: "slot width and starting pressure over the range of lips",
  slots: "the slot of every note",
  closed: "the same without a gap",
  holds: "the slots at every gap",
  levels: "peaks from soft to loud",
};

/** One line for all of them: they are worked out one after another. */
export function feelWork(feel: FeelResults, kinds: readonly FeelKind[]): TemplateResult {
  const { parts: state } = feel;
  const refused = new Set(kinds.flatMap((kind) => state[kind].refused ?? []));
  const busy = kinds.find((kind) => state[kind].progress !== null);
  const isStopped = kinds.some((kind) => state[kind].stopped);
  const isWaiting = kinds.some((kind) => state[kind].value === null || state[kind].stale);
  return html`
    <div class="work" role="status">
      ${[...refused].map((words) => warning(words))}
      ${
        busy
          ? workLine({
              doing: `Working out ${WORDS[busy]}`,
              share: state[busy].progress ?? 0,
              stop: () => feel.stop(),
            })
          : isStopped
            ? stoppedLine(() => feel.again())
            : isWaiting && refused.size === 0
              ? html`<span>Updates when you stop dragging.</span>`
              : nothing
      }
    </div>
  `;
}
