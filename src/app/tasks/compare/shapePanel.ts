/** A leadpipe by its dimensions, drawn as it is typed. */

import { html } from "lit";
import { customElement, state } from "lit/decorators.js";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { type ShapePart, shapePart } from "../../state/notes/compare.ts";
import { addingStyles } from "./addingStyles.ts";
import "../../chart/chartElement.ts";
import { boreDifferenceFigure } from "../../../charts/plots/compare/boreDifference.ts";
import { baseSetup, candidateNotes } from "./candidates.ts";
import { compareNotes, takeIn, writeCompare } from "./compareWrite.ts";
import { readShape, shapeLike } from "./shapeReading.ts";
import { withBore } from "./tableReading.ts";

const ENTRIES: readonly { readonly part: ShapePart; readonly label: string; readonly hint: string }[] = [
  { part: "entry", label: "Entry diameter", hint: "at the leadpipe's start" },
  { part: "narrowestAt", label: "Narrowest place", hint: "from the start; empty: it widens at once" },
  { part: "entryTaper", label: "Taper down to it", hint: "0.005 or 1:200; empty: a cylinder" },
  { part: "taper", label: "Taper behind it", hint: "then a cylinder; empty: evenly to the end" },
  { part: "end", label: "End diameter", hint: "where the body begins" },
  { part: "length", label: "Length", hint: "" },
];

@customElement("annulus-leadpipe-shape")
export class ShapePanel extends PageElement {
  @state() private typing = "";

  static override styles = [controls, sheetStyles, addingStyles];

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { shape } = compareNotes(store);
    const { unit } = state.view;
    const { problems, problem, profileMm } = readShape(shape, unit);
    const isLength = (part: ShapePart) => part !== "entryTaper" && part !== "taper";
    const open = {
      number: 1,
      name: state.document.setup.name,
      profileMm: state.document.setup.leadpipe.profileMm,
    };
    const variants = profileMm ? [open, { number: 2, name: shape.name || "as typed", profileMm }] : [open];
    return html`
      <div class="adding">
        <div class="stack">
          <div class="entries" @focusout=${this.#onLeave}>
            <annulus-entry class="wide" .label=${"Name"} .text=${shape.name} @write=${(event: WriteEvent) => this.#onWrite("name", event)}></annulus-entry>
            ${ENTRIES.map(
              ({ part, label, hint }) => html`
                <annulus-entry
                  data-testid="shape-${part}"
                  .label=${label}
                  .hint=${hint}
                  .unit=${isLength(part) ? unit : ""}
                  .text=${shape[part]}
                  .problem=${this.typing === part ? "" : (problems[part] ?? "")}
                  @write=${(event: WriteEvent) => this.#onWrite(part, event)}
                ></annulus-entry>
              `,
            )}
          </div>
          ${problem && this.typing === "" ? html`<p class="notice wrong" role="alert" data-testid="shape-problem">${icon("warning")}<span>${problem}</span></p>` : ""}
          <div class="actions">
            <button type="button" data-testid="shape-like" @click=${this.#like}>Begin with the open leadpipe's</button>
            <button type="button" class="main" data-testid="shape-take" ?disabled=${profileMm === null} @click=${this.#take}>${icon("plus")}Take it in</button>
          </div>
        </div>
        <annulus-chart .figure=${boreDifferenceFigure} .data=${{ part: "leadpipe", variants, reference: 1, chosen: 2 }}></annulus-chart>
      </div>
    `;
  }

  #onWrite(part: ShapePart, { detail: { text, done } }: WriteEvent): void {
    this.typing = done ? "" : part;
    const { store } = this.page;
    writeCompare(store, { shape: { ...compareNotes(store).shape, [part]: text } }, { commit: done });
  }

  readonly #onLeave = (): void => {
    this.typing = "";
  };

  readonly #like = (): void => {
    const { store } = this.page;
    const { parts: state } = store;
    const { name } = compareNotes(store).shape;
    const like = shapeLike(state.document.setup.leadpipe.profileMm, state.view.unit);
    writeCompare(store, { shape: { ...like, name } });
  };

  readonly #take = (): void => {
    const { store } = this.page;
    const { parts: state } = store;
    const { shape } = compareNotes(store);
    const { profileMm } = readShape(shape, state.view.unit);
    if (!profileMm) return;
    const name = shape.name.trim() || "Leadpipe by dimensions";
    const made = withBore(baseSetup(store.state.document), "leadpipe", profileMm, name);
    if ("problem" in made) store.say("error", `It makes no instrument. ${made.problem}`);
    else if (
      takeIn(store, [candidateNotes(name, "leadpipe by its dimensions", made.setup)], {
        shape: shapePart.empty,
      })
    )
      store.say("note", `${name} is taken in.`);
  };
}
