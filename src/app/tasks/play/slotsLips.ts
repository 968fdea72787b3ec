/** The lips that playing is modelled with: what each parameter is, where its value comes from, and a field to change it. */
import { html, nothing, type TemplateResult } from "lit";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { LIP_PARAMETERS, TWO_WAY_PARAMETERS } from "../../../study/feel/lipParameters.ts";
import { FAMILY } from "../../../words/instruments.ts";
import { LIP_BIAS, LIP_MODEL, ONLY_CHANGES } from "../../../words/lips.ts";
import { readField, readFields } from "../../form/field.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { icon } from "../../shell/look/icon.ts";
import { notice } from "../../shell/look/notice.ts";
import { LIP_FIELDS, type LipName, type PlayNotes, PRESSURE, playForm } from "../../state/notes/play.ts";

export const hasOwnLips = ({ lipModel, lips, pressure }: PlayNotes): boolean =>
  lipModel !== playForm.empty.lipModel ||
  [pressure, ...Object.values(lips)].some((text) => text.trim() !== "");

/** Of the parameters a person has changed, none is kept. */
const { lipModel: usualModel, lips: usualLips, pressure: usualPressure } = playForm.empty;

/** What is said of any other family: nobody has published enough to give each its own. */
const TRUMPETER = "These are a trumpet player's lips, from published values and own choices.";

export function lipsForm(form: NotesForm<"play">, instrument: InstrumentKind): TemplateResult {
  const { lipModel, lips, pressure, unit } = form.notes;
  const { problems } = readFields(LIP_FIELDS, lips, unit);
  const { name, group } = FAMILY[instrument];
  return html`
    ${
      group === "Trumpets and cornets"
        ? nothing
        : notice(
            `${TRUMPETER} A player of this instrument (${name}) has larger ones: what is said of slots and starting pressures is for comparing gaps, not for its own size.`,
            { testId: "trumpet-lips" },
          )
    }
    <p class="small" data-testid="lip-bias">${LIP_BIAS[lipModel]}; ${ONLY_CHANGES}</p>
    <div class="form" role="group" aria-label="Lips and breath">
      <div>
        ${form.choice(
          ["lipModel"],
          "Lips that move",
          [
            ["one-mass", `out only (${LIP_MODEL["one-mass"]})`],
            ["two-way", `out and open (${LIP_MODEL["two-way"]})`],
          ],
          { testId: "lip-model" },
        )}
        <p class="small">What is drawn and heard. A verdict tries both.</p>
      </div>
      ${
        lipModel === "two-way"
          ? twoWayTable()
          : (Object.keys(LIP_FIELDS) as LipName[]).map(
              (name) => html`
                <div>
                  ${form.entry(LIP_FIELDS[name], ["lips", name], problems[name], { testId: `lips-${name}` })}
                  <p class="small">${LIP_PARAMETERS[name].source}</p>
                </div>
              `,
            )
      }
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
        @click=${() => form.write({ lipModel: usualModel, lips: usualLips, pressure: usualPressure })}
      >
        ${icon("reset")}Usual lips
      </button>
    </div>
  `;
}

/** Their usual values, which are those of the model; each is tried at both ends of its range. */
const twoWayTable = (): TemplateResult => html`
  <div class="scroll" tabindex="0" role="group" aria-label="Lips of the two-way model">
    <table data-testid="two-way-lips">
      <thead><tr><th>Lips</th><th class="number">Usual</th><th class="number">From</th><th class="number">To</th><th>Unit</th></tr></thead>
      <tbody>
        ${Object.values(TWO_WAY_PARAMETERS).map(({ label, value, range, unit }) => {
          const [scale, shown] = unit === "m" ? [1000, "mm"] : [1, unit === "1" ? "" : unit];
          const cell = (x: number) => html`<td class="number">${Number((scale * x).toPrecision(3))}</td>`;
          return html`<tr><td>${label}</td>${[value, ...range].map(cell)}<td>${shown}</td></tr>`;
        })}
      </tbody>
    </table>
  </div>
`;
