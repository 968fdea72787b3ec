/** What the gaps are held against: the gap that the player prefers, and the clearance that counts as touching. */
import { css, html, type TemplateResult } from "lit";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import { bothUnits } from "../../../words/numbers.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { FIT_FIELDS } from "../../state/notes/fit.ts";
import type { FitReading } from "./fitReading.ts";

export function fitWishes(form: NotesForm<"fit">, { problems }: FitReading, setup: Setup): TemplateResult {
  const { unit } = form;
  const ownMm = gapMm(setup);
  return html`
    <div class="wishes stack">
      <div class="entries">
        ${(["preferred", "clearance"] as const).map((name) => form.entry(FIT_FIELDS[name], [name], problems[name], { saidAtOnce: true }))}
      </div>
      <div class="actions controls">
        <button type="button" data-testid="prefer-setup" @click=${() => form.write({ preferred: lengthText(ownMm, unit) })}>
          Prefer this setup's gap, ${bothUnits(ownMm, unit)}
        </button>
      </div>
    </div>
  `;
}

export const wishesStyles = css`
  .wishes .entries {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(13rem, 100%), 1fr));
    gap: 0.75rem 1.5rem;
    align-items: start;
    max-width: 36rem;
  }
`;
