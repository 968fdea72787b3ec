/** What the gaps are held against: the gap that the player prefers, and the clearance that counts as touching. */
import { css, html, type TemplateResult } from "lit";
import { GAP_KIND } from "../../../words/gapKinds.ts";
import { bothUnits } from "../../../words/numbers.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { lengthText } from "../../form/setup/edits.ts";
import type { NamedGap } from "../../state/bench/namedGaps.ts";
import { FIT_FIELDS } from "../../state/notes/fit.ts";
import type { FitReading } from "./fitReading.ts";

export function fitWishes(
  form: NotesForm<"fit">,
  { problems }: FitReading,
  gaps: readonly NamedGap[],
): TemplateResult {
  const { unit } = form;
  return html`
    <div class="wishes stack">
      <div class="entries">
        ${(["preferred", "clearance"] as const).map((name) => form.entry(FIT_FIELDS[name], [name], problems[name], { saidAtOnce: true }))}
      </div>
      <div class="actions controls">
        ${gaps
          .filter(({ at }) => at === "yours" || at === "preferred")
          .map(
            ({ at, is, gapMm }) => html`
              <button type="button" data-testid="prefer-${at}" @click=${() => form.write({ preferred: lengthText(gapMm, unit) })}>
                ${at === "yours" ? `Prefer your gap (${GAP_KIND[is]})` : "Take the gap preferred in the trial"}, ${bothUnits(gapMm, unit)}
              </button>
            `,
          )}
      </div>
    </div>
  `;
}

export const wishesStyles = css`
  .wishes button {
    min-width: 0;
    white-space: normal;
    text-align: start;
  }
  .wishes .entries {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(13rem, 100%), 1fr));
    gap: 0.75rem 1.5rem;
    align-items: start;
    max-width: 36rem;
  }
`;
