/** The candidates: each with its sign in the charts, its name, where it came from and its leadpipe; which is the reference, which is looked at. */

import { css, html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Standing, variantSign } from "../../../../charts/plots/compare/compareSeries.ts";
import { exitBoreMm, profileLengthMm } from "../../../../setup/geometry.ts";
import type { Setup } from "../../../../setup/setup.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { GAP_KIND } from "../../../../words/gapKinds.ts";
import { bothUnits } from "../../../../words/numbers.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { isSound, type Listed, withOpened, withoutCandidate } from "../../../state/bench/candidates.ts";
import { CANDIDATE_NAME, compareForm } from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";

@customElement("annulus-candidates")
export class CandidateList extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  @property({ attribute: false }) all: readonly Listed[] = [];
  @property({ attribute: false }) standing!: Standing;

  static override styles = [
    controls,
    sheetStyles,
    css`
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
        border-top: 1px solid var(--hairline);
      }
      li {
        display: grid;
        grid-template-columns: 4.5rem minmax(10rem, 17rem) minmax(0, 1fr) auto;
        gap: 0.25rem 1rem;
        align-items: center;
        padding: 0.4rem 0;
        border-bottom: 1px solid var(--hairline);
      }
      .sign {
        display: flex;
        align-items: center;
        gap: 0.5rem;
        font-weight: 650;
      }
      .name {
        font-weight: 600;
        overflow-wrap: anywhere;
      }
      .of {
        font-size: var(--type-14);
        min-width: 0;
        overflow-wrap: anywhere;
      }
      .from {
        font-size: var(--type-12);
        color: var(--muted);
      }
      .problem {
        color: var(--gap);
        display: flex;
        gap: 0.3rem;
      }
      .mark {
        font-size: var(--type-14);
        display: inline-flex;
        align-items: center;
        gap: 0.35rem;
        min-height: var(--touch);
        white-space: nowrap;
        cursor: pointer;
      }
      .mark input {
        width: 1.1rem;
        height: 1.1rem;
        accent-color: var(--ink);
      }
      .actions {
        align-items: center;
        justify-content: flex-end;
        gap: 0.25rem 0.75rem;
      }
      @container sheet (max-width: 899px) {
        li {
          grid-template-columns: 4.5rem minmax(0, 1fr);
        }
        .of,
        li > .actions {
          grid-column: 1 / -1;
        }
        .actions {
          justify-content: flex-start;
          gap: 0.25rem 0.5rem;
        }
        .actions button:not(.square) {
          padding: 0 0.5rem;
        }
      }
    `,
  ];

  override render() {
    return html`<ol aria-label="Candidates" data-testid="candidates">${this.all.map((one) => this.#item(one))}</ol>`;
  }

  #item(one: Listed) {
    const { number, name, origin } = one;
    const { reference, chosen } = this.standing;
    const { unit } = this.page.store.parts.view;
    return html`
      <li data-testid="candidate-${number}">
        <span class="sign">${number} ${variantSign({ number, name }, this.standing, document)}</span>
        ${
          number === 1
            ? html`<span class="name">${name}</span>`
            : this.#form.entry(CANDIDATE_NAME, ["candidates", number - 2, "name"], "", {
                bare: true,
                label: `Name of candidate ${number}`,
              })
        }
        <div class="of">
          ${isSound(one) ? html`<p>${inWords(one.setup, unit)}; gap ${bothUnits(one.gapMm, unit)}, ${GAP_KIND[one.gapIs]}</p>` : html`<p class="problem">${icon("warning")}<span>${one.problem}</span></p>`}
          <p class="from">${origin}</p>
        </div>
        <div class="actions controls">
          <label class="mark">
            <input type="radio" name="reference" .checked=${number === reference} ?disabled=${!isSound(one)}
              aria-label="${number} ${name}: compared with" @change=${() => this.#form.write({ reference: number - 1 })} />
            compared with
          </label>
          <label class="mark">
            <input type="radio" name="chosen" .checked=${number === chosen} ?disabled=${!isSound(one)}
              aria-label="${number} ${name}: highlighted" @change=${() => this.#choose(number)} />
            highlighted
          </label>
          ${
            number === 1
              ? nothing
              : html`
                  <button type="button" aria-label="Open in Explore: ${number} ${name}" ?disabled=${!isSound(one)} @click=${() => this.#open(one)}>Open in Explore</button>
                  <button type="button" class="plain square" aria-label="Remove ${number} ${name}" title="Remove" @click=${() => this.#remove(one)}>${icon("xmark")}</button>
                `
          }
        </div>
      </li>
    `;
  }

  #choose(number: number): void {
    this.dispatchEvent(new CustomEvent<number>("choose", { detail: number }));
  }

  #remove({ number, name }: Listed): void {
    const { store } = this.page;
    store.setNotes("compare", withoutCandidate(this.#form.notes, number));
    store.say("note", `${name} is removed. Undo brings it back.`);
  }

  #open(one: Listed): void {
    if (!isSound(one)) return;
    const { store } = this.page;
    store.open(withOpened(store.state.document, one));
    store.say(
      "note",
      `${one.name} is open in Explore now; what was open stands in its place here. Undo goes back.`,
    );
  }
}

/** The leadpipe: its ends, its narrowest place, its length. */
function inWords({ leadpipe: { profileMm } }: Setup, unit: LengthUnit): string {
  const [[startMm, entryMm]] = profileMm;
  const [narrowestAt, narrowestMm] = profileMm.reduce((a, b) => (b[1] < a[1] ? b : a));
  const length = (mm: number) => formatLength(mm, unit);
  const narrowest =
    narrowestMm < entryMm ? ` to ${length(narrowestMm)} at ${length(narrowestAt - startMm)}` : "";
  return `leadpipe ${length(entryMm)}${narrowest} to ${length(exitBoreMm(profileMm))}, ${length(profileLengthMm(profileMm))} long`;
}
