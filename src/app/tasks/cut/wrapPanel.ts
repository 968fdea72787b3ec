/** A gap tried with a wrap: what each foil or paper that was measured does, and how thick one for the planned gap would be. */
import { css, html, nothing, type TemplateResult } from "lit";
import { planWrap, wrapForGapMm } from "../../../bench/cut/wrap.ts";
import { setupSeatTaper } from "../../../bench/fit/setupSeatTaper.ts";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { MEASURE_A_WRAP, taperWords, WRAP_ONLY_WIDENS, wrapWords } from "../../../words/bench/benchAdvice.ts";
import { readField } from "../../form/field.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { icon } from "../../shell/look/icon.ts";
import { FOIL_FIELDS, MOST_FOILS } from "../../state/notes/cut.ts";

/** @param plannedMm undefined where no gap is planned */
export function wrapPanel(
  form: NotesForm<"cut">,
  setup: Setup,
  plannedMm: number | undefined,
): TemplateResult {
  const { unit } = form;
  const { foils } = form.notes;
  const taper = setupSeatTaper(setup);
  const ownMm = gapMm(setup);
  const widerMm = plannedMm === undefined ? 0 : plannedMm - ownMm;
  const fine = (lengthMm: number) => formatLength(lengthMm, unit, unit === "mm" ? 3 : 4);
  return html`
    <section class="wraps" aria-labelledby="wraps">
      <h2 id="wraps">Try a wider gap with a wrap</h2>
      <p>
        A thin, even wrap over the whole seat makes the shank larger, so that it stops further out. The taper that stops it is
        ${taperWords(taper)}.
        ${
          widerMm > 0
            ? html`<b data-testid="wrap-needed">For ${formatLength(widerMm, unit)} more gap: ${fine(wrapForGapMm(widerMm, taper))} thick.</b>`
            : plannedMm === undefined
              ? nothing
              : html`<b data-testid="wrap-needed">The planned gap is no wider than yours. ${WRAP_ONLY_WIDENS}</b>`
        }
      </p>
      ${foils.map((foil, i) => {
        const { value, problem } = readField(FOIL_FIELDS.thickness, foil.thickness, unit);
        const plan =
          value === undefined
            ? undefined
            : planWrap({ thicknessMm: value, seatTaper: taper, gapMm: ownMm, plannedMm });
        return html`
          <div class="foil controls" data-testid="foil-${i}">
            ${form.entry(FOIL_FIELDS.name, ["foils", i, "name"], "", { testId: `foil-name-${i}` })}
            ${form.entry(FOIL_FIELDS.thickness, ["foils", i, "thickness"], problem, { testId: `foil-thickness-${i}` })}
            <p class="does" aria-live="polite">${plan ? wrapWords(plan, unit) : ""}</p>
            <button type="button" class="plain square" aria-label=${`Remove ${foil.name || `foil ${i + 1}`}`} title="Remove" @click=${() => form.remove(["foils", i])}>${icon("xmark")}</button>
          </div>
        `;
      })}
      <div class="actions controls">
        <button
          type="button"
          data-testid="foil-add"
          ?disabled=${foils.length >= MOST_FOILS}
          @click=${() => form.write({ foils: [...foils, { name: "", thickness: "" }] })}
        >
          Add a foil or paper
        </button>
      </div>
      <p class="muted">
        ${MEASURE_A_WRAP} Common practice, no source.
      </p>
    </section>
  `;
}

export const wrapPanelStyles = css`
  .foil {
    display: grid;
    grid-template-columns: minmax(8rem, 14rem) minmax(8rem, 14rem) minmax(0, 1fr) max-content;
    gap: 0.5rem 1.25rem;
    align-items: end;
  }
  .foil .does {
    min-height: 1.4em;
    padding-bottom: 0.6rem;
    font-weight: 600;
  }
  .wraps p {
    max-width: 110ch;
    text-wrap: pretty;
  }
  .wraps .muted {
    font-size: var(--type-12);
  }
  @container sheet (max-width: 799px) {
    .foil {
      grid-template-columns: minmax(0, 1fr) max-content;
    }
    .foil > :not(button) {
      grid-column: 1 / 2;
    }
  }
`;
