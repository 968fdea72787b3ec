/** The lips that playing is modelled with: what each parameter is, where its value comes from, and a field to change it. */
import { html, nothing, type TemplateResult } from "lit";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { LIP_PARAMETERS } from "../../../study/feel/lipParameters.ts";
import { FAMILY } from "../../../words/instruments.ts";
import { readField, readFields } from "../../form/field.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { icon } from "../../shell/look/icon.ts";
import { LIP_FIELDS, type LipName, type PlayNotes, PRESSURE, playForm } from "../../state/notes/play.ts";

export const hasOwnLips = ({ lips, pressure }: PlayNotes): boolean =>
  [pressure, ...Object.values(lips)].some((text) => text.trim() !== "");

/** Of the parameters a person has changed, none is kept. */
const { lips: usualLips, pressure: usualPressure } = playForm.empty;

/** What is said of any other family: nobody has published enough to give each its own. */
const TRUMPETER = "These are a trumpet player's lips, from published values and own choices.";

export function lipsForm(form: NotesForm<"play">, instrument: InstrumentKind): TemplateResult {
  const { lips, pressure, unit } = form.notes;
  const { problems } = readFields(LIP_FIELDS, lips, unit);
  const { name, group } = FAMILY[instrument];
  return html`
    ${
      group === "Trumpets and cornets"
        ? nothing
        : html`<p class="notice" data-testid="trumpet-lips">${icon("info")}<span>${TRUMPETER} A player of this instrument (${name}) has larger ones: what is said of slots and starting pressures is for comparing gaps, not for its own size.</span></p>`
    }
    <div class="form" role="group" aria-label="Lips and breath">
      ${(Object.keys(LIP_FIELDS) as LipName[]).map(
        (name) => html`
          <div>
            ${form.entry(LIP_FIELDS[name], ["lips", name], problems[name], { testId: `lips-${name}` })}
            <p class="small">${LIP_PARAMETERS[name].source}</p>
          </div>
        `,
      )}
      <div>
        ${form.entry(PRESSURE, ["pressure"], readField(PRESSURE, pressure, unit).problem, { testId: "lips-pressure" })}
        <p class="small">A soft note, well above its starting pressure: own choice, no source. Both gaps are blown alike.</p>
      </div>
    </div>
    <div class="actions">
      <button
        type="button"
        data-testid="usual-lips"
        ?disabled=${!hasOwnLips(form.notes)}
        @click=${() => form.write({ lips: usualLips, pressure: usualPressure })}
      >
        ${icon("reset")}Usual lips
      </button>
    </div>
  `;
}
