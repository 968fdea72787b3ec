/** The ways to take in another candidate: a bore table, a leadpipe's dimensions, a setup file, or three that are invented. */

import { fileOpen } from "browser-fs-access";
import { html } from "lit";
import { customElement, state } from "lit/decorators.js";
import { leadpipeOfShape } from "../../../../setup/bore/leadpipeShape.ts";
import { readSetupText } from "../../../../setup/file/readSetup.ts";
import { SetupError } from "../../../../setup/problem.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { type Segment, segments } from "../../../shell/look/segments.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { candidateNotes, takeIn } from "../../../state/bench/candidates.ts";
import { unlessGivenUp } from "../../../state/keeping/fileDialog.ts";
import { SETUP_FILES } from "../../../state/keeping/setupFile.ts";
import { PageElement } from "../../../state/page.ts";
import { addingStyles } from "../addingStyles.ts";
import { INVENTED } from "./inventedLeadpipes.ts";
import "./shapePanel.ts";
import "./tablePanel.ts";
import { withBore } from "../../../state/bench/boreTable.ts";

type Way = "table" | "shape";
const WAYS: readonly Segment<Way>[] = [
  { value: "table", text: "Bore table" },
  { value: "shape", text: "By dimensions" },
];

@customElement("annulus-add-candidate")
export class AddCandidate extends PageElement {
  @state() private way: Way = "table";

  static override styles = [controls, sheetStyles, addingStyles];

  override render() {
    return html`
      <div class="stack controls">
        <div class="actions">
          ${segments<Way>("Add a candidate", WAYS, this.way, (way) => {
            this.way = way;
          })}
          <button type="button" data-testid="add-setup" @click=${this.#openSetup}>${icon("open")}Setup file</button>
          <button type="button" data-testid="add-invented" @click=${this.#invented}>Three invented leadpipes</button>
        </div>
        ${this.way === "table" ? html`<annulus-bore-table></annulus-bore-table>` : html`<annulus-leadpipe-shape></annulus-leadpipe-shape>`}
      </div>
    `;
  }

  readonly #openSetup = async (): Promise<void> => {
    const { store } = this.page;
    const file = await unlessGivenUp(() => fileOpen(SETUP_FILES), store);
    if (!file) return;
    try {
      const setup = readSetupText(await file.text());
      if (takeIn(store, [candidateNotes(setup.name, `setup file ${file.name}`, setup)]))
        store.say("note", `${setup.name} is added.`);
    } catch (error) {
      const reason = error instanceof SetupError ? error.message : "the file cannot be read; choose another";
      store.say("error", `${file.name}: ${reason}`);
    }
  };

  readonly #invented = (): void => {
    const { store } = this.page;
    const { setup: base } = store.state.document;
    const made = INVENTED.map(({ name, shape }) => ({
      name,
      ...withBore(base, "leadpipe", leadpipeOfShape(shape), name),
    }));
    const taken = made.flatMap((one) =>
      "setup" in one ? [candidateNotes(one.name, "invented: nobody has made it", one.setup)] : [],
    );
    if (takeIn(store, taken)) store.say("note", "Invented: none of these leadpipes exists.");
  };
}
