/** The chosen candidate's leadpipe, or the mandrel it is drawn on, as a workshop drawing. */
import { css, html } from "lit";
import { customElement, property } from "lit/decorators.js";
import { GAUGE_TITLE } from "../../../../words/bench/gauges.ts";
import "../../../drawing/workshopDrawing.ts";
import { readFields } from "../../../form/field.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { segments } from "../../../shell/look/segments.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import type { Candidate } from "../../../state/bench/candidates.ts";
import { compareForm, MAKING_FIELDS, MAKINGS } from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";
import { addingStyles } from "../addingStyles.ts";

const FIELDS = {
  leadpipe: ["tolerance", "wall"],
  mandrel: ["tolerance", "wall", "springBack", "overrun"],
} as const;

@customElement("annulus-making")
export class MakingPanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  @property({ attribute: false }) from!: Candidate;

  static override styles = [
    controls,
    sheetStyles,
    addingStyles,
    css`
      .stack {
        gap: 0.75rem;
      }
    `,
  ];

  override render() {
    const { unit } = this.#form;
    const { making } = this.#form.notes;
    const { values, problems } = readFields(MAKING_FIELDS, making, unit);
    const { number, name, setup } = this.from;
    const fields = FIELDS[making.kind];
    const options = {
      unit,
      ...(values.tolerance !== undefined && { toleranceMm: values.tolerance }),
      ...(values.wall !== undefined && { wallMm: values.wall }),
      ...(values.springBack !== undefined && { springBackMm: values.springBack }),
      ...(values.overrun !== undefined && { overrunMm: values.overrun }),
    };
    return html`
      <div class="stack">
        <p>Of ${number} ${name}.</p>
        <div class="actions controls">
          ${segments(
            "Drawing",
            MAKINGS.map((value) => ({ value, text: GAUGE_TITLE[value] })),
            making.kind,
            (kind) => this.#form.writeIn("making", { kind }),
          )}
        </div>
        <div class="entries">
          ${fields.map((field) => this.#form.entry(MAKING_FIELDS[field], ["making", field], problems[field], { testId: `making-${field}` }))}
        </div>
        <annulus-workshop-drawing
          .setup=${setup}
          .kind=${making.kind}
          .options=${fields.every((field) => !problems[field]) ? options : null}
        ></annulus-workshop-drawing>
      </div>
    `;
  }
}
