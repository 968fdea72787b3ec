/** What a cut is to reach and within what limits, as a person types it. */
import { css, html, type TemplateResult } from "lit";
import { defaultMinimumWallMm, defaultToleranceMm } from "../../../bench/cut/cutQuestion.ts";
import { inUnit, tickText } from "../../../charts/kit/numbers.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import "../../form/entry.ts";
import type { WriteEvent, Written } from "../../form/entry.ts";
import type { Order, OrderField } from "../../state/bench/order.ts";
import type { CutNotes } from "../../state/notes/cutNotes.ts";

export interface OrderForm {
  readonly notes: CutNotes;
  readonly order: Order;
  /** The gap chosen in Explore, mm. */
  readonly chosenGapMm: number;
  readonly write: (field: OrderField, written: Written) => void;
}

export function targetField(form: OrderForm): TemplateResult {
  const { notes, order, chosenGapMm, write } = form;
  const { plan } = order;
  const take = (text: string) => write("target", { text, done: true });
  return html`
    <section class="figure target" aria-labelledby="target">
      <h2 id="target">Target</h2>
      ${entry(form, "target", "Gap to reach", "such as 2.0 mm, 0.08 in or 1/8 in")}
      <p class="other" aria-live="polite">${plan?.targetMm === undefined ? "" : bothUnits(plan.targetMm, notes.unit)}</p>
      <div class="actions controls">
        <button
          type="button"
          data-testid="target-chosen"
          @click=${() => take(`${tickText(inUnit(chosenGapMm, notes.unit))} ${notes.unit}`)}
        >
          Chosen in Explore: ${formatLength(chosenGapMm, notes.unit)}
        </button>
        <button type="button" data-testid="target-tenth" @click=${() => take("0.100 in")}>
          A tenth of an inch
        </button>
      </div>
      <p class="muted">A tenth of an inch: common practice, no source.</p>
    </section>
  `;
}

export const limitFields = (form: OrderForm): TemplateResult => html`
  <div class="limits">
    ${entry(form, "tolerance", "Tolerance", `near enough to the target; empty: ${formatLength(defaultToleranceMm, form.notes.unit)}`)}
    ${entry(form, "minimumWall", "Minimum wall", `left at the shank’s end; empty: ${formatLength(defaultMinimumWallMm, form.notes.unit)}, common practice, no source`)}
    ${entry(form, "stopPerMark", "Stop, per mark", "adjustable receivers only: change of gap for one mark")}
  </div>
`;

const entry = (
  { notes, order, write }: OrderForm,
  field: OrderField,
  label: string,
  hint: string,
): TemplateResult => html`
  <annulus-entry
    data-testid=${field}
    label=${label}
    hint=${hint}
    unit=${notes.unit}
    .text=${notes[field]}
    .problem=${order.problems[field] ?? ""}
    @write=${({ detail }: WriteEvent) => write(field, detail)}
  ></annulus-entry>
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
