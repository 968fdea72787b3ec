/** What a cut is to reach and within what limits, as a person types it. */
import { css, html, type TemplateResult } from "lit";
import { inUnit, tickText } from "../../../charts/kit/numbers.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import type { Order, OrderField } from "../../state/bench/order.ts";
import { CUT_FIELDS } from "../../state/notes/cut.ts";

type CutForm = NotesForm<"cut">;

const entry = (form: CutForm, { problems }: Order, field: OrderField) =>
  form.entry(CUT_FIELDS[field], [field], problems[field], { saidAtOnce: true });

/** @param chosenGapMm the gap chosen in Explore */
export function targetField(form: CutForm, order: Order, chosenGapMm: number): TemplateResult {
  const { unit } = form;
  const { plan } = order;
  const take = (target: string) => form.write({ target });
  return html`
    <section class="figure target" aria-labelledby="target">
      <h2 id="target">Planned gap</h2>
      ${entry(form, order, "target")}
      <p class="other" aria-live="polite">${plan?.targetMm === undefined ? "" : bothUnits(plan.targetMm, unit)}</p>
      <div class="actions controls">
        <button
          type="button"
          data-testid="target-chosen"
          @click=${() => take(`${tickText(inUnit(chosenGapMm, unit))} ${unit}`)}
        >
          What if, from Explore: ${formatLength(chosenGapMm, unit)}
        </button>
        <button type="button" data-testid="target-tenth" @click=${() => take("0.100 in")}>
          A tenth of an inch
        </button>
      </div>
      <p class="muted">A tenth of an inch: common practice, no source.</p>
    </section>
  `;
}

export const limitFields = (form: CutForm, order: Order): TemplateResult => html`
  <div class="limits">
    ${(["tolerance", "minimumWall", "stopPerMark"] as const).map((field) => entry(form, order, field))}
  </div>
`;

export const orderFormStyles = css`
  .target .other {
    color: var(--gap);
  }
  .limits {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(16rem, 100%), 1fr));
    gap: 0.75rem 2rem;
    padding-top: 1rem;
  }
`;
