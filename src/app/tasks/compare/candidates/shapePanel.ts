/** A leadpipe by its dimensions, drawn as it is typed. */

import { html } from "lit";
import { customElement } from "lit/decorators.js";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { compareForm, SHAPE_FIELDS, type ShapeNotes, shapePart } from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";
import { addingStyles } from "../addingStyles.ts";
import "../../../chart/chartElement.ts";
import { boreDifferenceFigure } from "../../../../charts/plots/compare/boreDifference.ts";
import { warning } from "../../../shell/look/notice.ts";
import { withBore } from "../../../state/bench/boreTable.ts";
import { candidateNotes, takeIn } from "../../../state/bench/candidates.ts";
import { readShape, shapeLike } from "../../../state/bench/leadpipeShape.ts";

const NAMES = Object.keys(SHAPE_FIELDS) as (keyof ShapeNotes)[];

@customElement("annulus-leadpipe-shape")
export class ShapePanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);

  static override styles = [controls, sheetStyles, addingStyles];

  override render() {
    const { name, leadpipe } = this.page.store.parts.document.setup;
    const { shape } = this.#form.notes;
    const { problems, problem, profileMm } = readShape(shape, this.#form.unit);
    const open = { number: 1, name, profileMm: leadpipe.profileMm };
    const variants = profileMm ? [open, { number: 2, name: shape.name || "as typed", profileMm }] : [open];
    return html`
      <div class="adding">
        <div class="stack">
          <div class="entries">
            ${NAMES.map((name) => {
              const entry = this.#form.entry(SHAPE_FIELDS[name], ["shape", name], problems[name], {
                testId: `shape-${name}`,
              });
              return name === "name" ? html`<div class="wide">${entry}</div>` : entry;
            })}
          </div>
          ${problem && this.#form.typing === "" ? warning(problem, { role: "alert", testId: "shape-problem" }) : ""}
          <div class="actions">
            <button type="button" data-testid="shape-like" @click=${this.#like}>Begin with the open leadpipe's</button>
            <button type="button" class="main" data-testid="shape-take" ?disabled=${profileMm === null} @click=${this.#take}>${icon("plus")}Add it</button>
          </div>
        </div>
        <annulus-chart .figure=${boreDifferenceFigure} .data=${{ part: "leadpipe", variants, reference: 1, chosen: 2 }}></annulus-chart>
      </div>
    `;
  }

  readonly #like = (): void => {
    const { leadpipe } = this.page.store.parts.document.setup;
    const { name: _, ...like } = shapeLike(leadpipe.profileMm, this.#form.unit);
    this.#form.writeIn("shape", like);
  };

  readonly #take = (): void => {
    const { store } = this.page;
    const { shape } = this.#form.notes;
    const { profileMm } = readShape(shape, this.#form.unit);
    if (!profileMm) return;
    const name = shape.name.trim() || "Leadpipe by dimensions";
    const made = withBore(store.state.document.setup, "leadpipe", profileMm, name);
    if ("problem" in made) store.say("error", `This cannot be an instrument. ${made.problem}`);
    else if (
      takeIn(store, [candidateNotes(name, "leadpipe by its dimensions", made.setup)], {
        shape: shapePart.empty,
      })
    )
      store.say("note", `${name} is added.`);
  };
}
