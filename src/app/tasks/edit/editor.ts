/** The panel in which every dimension of the instrument is typed, part by part. Tells by `close` that it is done with. */

import { html, nothing } from "lit";
import { customElement, queryAll, state } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import {
  hasDimension,
  isProvenanceDimension,
  type ProvenanceDimension,
  provenanceOf,
  withProvenance,
} from "../../../setup/dimension/provenance.ts";
import { gapMm, type Provenance } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { PROVENANCE_WORD, PROVENANCES } from "../../../words/provenance.ts";
import { icon } from "../../shell/look/icon.ts";
import { setupFileText } from "../../state/keeping/setupFile.ts";
import { PageElement } from "../../state/page.ts";
import type { AirKind } from "./airKind.ts";
import { copyText } from "./clipboard.ts";
import { EditedSetup } from "./editedSetup.ts";
import { editorStyles } from "./editorStyles.ts";
import "../../form/entry.ts";
import type { Entry, WriteEvent } from "../../form/entry.ts";
import {
  ABOUT,
  BODY,
  CONDITIONS,
  CONSTANTS,
  fieldAt,
  MODEL,
  MOUTHPIECE,
  RECEIVER,
  type SetupField,
  THRESHOLDS,
  UNCERTAINTIES,
} from "../../form/setup/fields.ts";
import { cellAt, keysOf, type Part } from "../../form/setup/paths.ts";
import "../../form/setup/warnings.ts";
import type { BeginEvent } from "../../form/standInChoice.ts";
import "./mouthpieceNumbers.ts";
import type { TypedNumbers } from "./mouthpieceNumbers.ts";
import "./profileTable.ts";
import { isUndoKey } from "../../form/undoKey.ts";
import type { AnnulusProfileTable } from "./profileTable.ts";
import { editControls } from "./styles.ts";

const SECTIONS = [
  "Name and notes",
  "Mouthpiece",
  "Receiver",
  "Leadpipe",
  "Body",
  "Air",
  "Model",
  "Just noticeable",
  "How well it is known",
  "The file",
] as const;
type Section = (typeof SECTIONS)[number];

@customElement("annulus-editor")
export class AnnulusEditor extends PageElement {
  static override styles = [editControls, editorStyles];

  /** Open parts, by name: sections, and the profiles in them. */
  @state() private open: ReadonlySet<string> = new Set<string>(["Mouthpiece", "Receiver"]);
  @state() private copied = "";
  @queryAll("annulus-entry") private fields!: NodeListOf<Entry>;
  @queryAll("annulus-profile-table") private tables!: NodeListOf<AnnulusProfileTable>;
  /** What is typed of a mouthpiece and not drawn yet. */
  readonly #typedNumbers: TypedNumbers = new Map();
  readonly #edited = new EditedSetup(this);

  constructor() {
    super();
    this.addEventListener("keydown", this.#onKey);
  }

  /** Fields and tables keep the keys that are theirs. */
  #onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    const { store } = this.page;
    if (event.key === "Escape") this.#close();
    else if (isUndoKey(event) === "undo") store.undo();
    else if (isUndoKey(event) === "redo") store.redo();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  override render() {
    return html`
      <section aria-labelledby="title">
        <header>
          <h2 id="title" tabindex="-1">Edit the instrument</h2>
          <button type="button" class="plain square" aria-label="Close the editor" title="Close (Esc)" @click=${this.#close}>
            ${icon("xmark")}
          </button>
        </header>
        <annulus-warnings></annulus-warnings>
        <annulus-stand-in-choice @begin=${({ detail }: BeginEvent) => this.#edited.beginWith(detail)}></annulus-stand-in-choice>
        <div class="parts">
          ${SECTIONS.map((name) => this.#section(name))}
        </div>
      </section>
    `;
  }

  #section(name: Section) {
    const toCorrect = this.#edited.toCorrect.filter(({ path }) => sectionOf(path) === name).length;
    return html`
      <details ?open=${this.open.has(name)} @toggle=${(event: Event) => this.#toggled(name, event)}>
        <summary>
          <h3>${name}</h3>
          ${toCorrect > 0 ? html`<span class="count">${toCorrect} to correct</span>` : nothing}
        </summary>
        ${this.open.has(name) ? html`<div class="part">${this.#content(name)}</div>` : nothing}
      </details>
    `;
  }

  #content(name: Section) {
    switch (name) {
      case "Name and notes":
        return this.#fields(ABOUT);
      case "Mouthpiece":
        return [this.#fields(MOUTHPIECE), this.#mouthpieceNumbers(), this.#profile("mouthpiece")];
      case "Receiver":
        return [this.#fields(RECEIVER), this.#gap()];
      case "Leadpipe":
        return this.#profile("leadpipe");
      case "Body":
        return [this.#fields(BODY), this.#profile("body")];
      case "Air":
        return this.#air();
      case "Model":
        return this.#fields(MODEL);
      case "Just noticeable":
        return this.#fields(THRESHOLDS);
      case "How well it is known":
        return [
          html`<p class="hint">
            Standard uncertainties. A dimension left empty is taken as exact; one that is assumed differs as instruments of
            its kind usually do.
          </p>`,
          this.#fields(UNCERTAINTIES),
        ];
      case "The file":
        return this.#file();
    }
  }

  /** Where a dimension comes from, in a word that can be changed; assumed is in lighter ink and underlined with dots. */
  #origin(dimension: ProvenanceDimension, label: string) {
    const setup = this.#edited.setup;
    if (!hasDimension(setup, dimension)) return nothing;
    const own = provenanceOf(setup, dimension);
    const choose = ({ target }: Event) => {
      const { value } = target as HTMLSelectElement;
      this.#edited.commit(withProvenance(setup, value as Provenance, dimension));
    };
    return html`<p class="origin">
      <select
        class=${own}
        data-origin=${dimension}
        aria-label=${`${label}: where it comes from`}
        .value=${live(own)}
        @change=${choose}
      >
        ${PROVENANCES.map((one) => html`<option value=${one} ?selected=${one === own}>${PROVENANCE_WORD[one]}</option>`)}
      </select>
    </p>`;
  }

  /** A dimension's own marks, and how well it is known where somebody has measured it. */
  #known(path: string, label: string) {
    if (!isProvenanceDimension(path)) return nothing;
    const uncertainty = fieldAt(`uncertainties["${path}"]`);
    const isAsked = this.#edited.setup.provenance[path] === "measured" && uncertainty;
    const asked = { ...uncertainty, label: `${label}: standard uncertainty` } as SetupField;
    return html`${this.#origin(path, label)}${isAsked ? this.#field(asked) : nothing}`;
  }

  #fields(fields: readonly SetupField[]) {
    return fields.map((field) => [this.#field(field), this.#known(field.path, field.label)]);
  }

  #field(field: SetupField) {
    const { path } = field;
    const draft = this.#edited.toCorrect.find((one) => one.path === path);
    const standing = this.#edited.shown(path);
    return html`<annulus-entry
        beside
        ?tall=${field.kind === "words"}
        data-path=${path}
        .label=${field.label}
        .hint=${field.hint(this.#edited.unit)}
        .unit=${field.unit(this.#edited.unit)}
        .optional=${field.isOptional}
        .lines=${field.lines ?? 1}
        .choices=${field.choices ?? null}
        .standing=${standing}
        .usualMm=${field.usualMm ?? null}
        .text=${draft?.text ?? standing}
        .problem=${draft?.message ?? ""}
        @write=${(event: WriteEvent) => this.#onWrite(path, event)}
        @takeback=${() => this.#edited.takeBack(path)}
      ></annulus-entry>`;
  }

  /** What was typed otherwise than it is shown, `1/8 in`, is shown as it is understood. */
  async #onWrite(path: string, { detail, target }: WriteEvent): Promise<void> {
    if (!detail.done) return;
    this.#edited.enter(path, detail.text);
    await this.updateComplete;
    const entry = target as Entry;
    entry.text = this.#edited.text(path);
  }

  #gap() {
    const gap = formatLength(gapMm(this.#edited.setup), this.#edited.unit);
    return html`<p class="gap">Your gap: <output>${gap}</output> <span class="hint">depth less insertion</span></p>`;
  }

  #mouthpieceNumbers() {
    const name = "mouthpiece numbers";
    return html`
      <details ?open=${this.open.has(name)} @toggle=${(event: Event) => this.#toggled(name, event)}>
        <summary>Bore from usual numbers <span class="hint">rim, cup, throat, backbore</span></summary>
        ${
          this.open.has(name)
            ? html`<annulus-mouthpiece-numbers
                .mouthpiece=${this.#edited.setup.mouthpiece}
                .unit=${this.#edited.unit}
                .typed=${this.#typedNumbers}
                .draw=${this.#edited.drawMouthpiece}
              ></annulus-mouthpiece-numbers>`
            : nothing
        }
      </details>
    `;
  }

  #profile(bore: Part) {
    const name = `${bore} profile`;
    const { profileMm } = this.#edited.setup[bore];
    const [startMm, endMm] = [profileMm[0][0], profileMm[profileMm.length - 1][0]];
    const extent = `${formatLength(startMm, this.#edited.unit)} to ${formatLength(endMm, this.#edited.unit)}`;
    return html`
      ${this.#origin(`${bore}.profile`, `${bore} bore profile`)}
      <details ?open=${this.open.has(name)} @toggle=${(event: Event) => this.#toggled(name, event)}>
        <summary>Bore profile <span class="hint">${profileMm.length} rows, ${extent}</span></summary>
        ${
          this.open.has(name)
            ? html`<annulus-profile-table
                .bore=${bore}
                .profileMm=${profileMm}
                .unit=${this.#edited.unit}
                .drafts=${this.#edited.profileDrafts[bore]}
                .actions=${this.#edited.actions}
              ></annulus-profile-table>`
            : nothing
        }
      </details>
    `;
  }

  #air() {
    const { kind } = this.#edited.setup.air;
    const choice = (value: AirKind, words: string) => html`
      <label class="choice">
        <input type="radio" name="air" value=${value} .checked=${kind === value} @change=${() => this.#edited.chooseAir(value)}>
        ${words}
      </label>
    `;
    return html`
      <fieldset>
        <legend>The air is given by</legend>
        ${choice("conditions", "the room’s conditions")} ${choice("constants", "its constants")}
      </fieldset>
      ${kind === "conditions" ? this.#fields(CONDITIONS) : this.#fields(CONSTANTS)}
    `;
  }

  #file() {
    const text = setupFileText(this.#edited.setup);
    return html`
      <label for="file" class="hint">What is saved, as it is now; to be read, not typed in</label>
      <textarea id="file" rows="14" readonly spellcheck="false" .value=${text}></textarea>
      <div class="row">
        <button type="button" @click=${async () => {
          this.copied = await copyText(text, "The file");
        }}>Copy the file’s text</button>
        <span role="status">${this.copied}</span>
      </div>
    `;
  }

  #toggled(name: string, event: Event): void {
    const isOpen = (event.currentTarget as HTMLDetailsElement).open;
    if (isOpen === this.open.has(name)) return;
    const names = new Set(this.open);
    if (isOpen) names.add(name);
    else names.delete(name);
    this.open = names;
    this.copied = "";
  }

  #close = (): void => {
    this.dispatchEvent(new CustomEvent("close"));
  };

  /** Puts the keyboard at the panel's head. */
  override focus(options?: FocusOptions): void {
    void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>("#title")?.focus(options));
  }

  /** Opens the section of a place in the file, `receiver.depth`, and puts the keyboard there. */
  async reveal(path: string): Promise<void> {
    const section = sectionOf(path);
    const cell = cellAt(path);
    const bore = /^(\w+)\.profile/.exec(path)?.[1];
    this.open = new Set([...this.open, section, ...(bore ? [`${bore} profile`] : [])]);
    await this.updateComplete;
    if (!bore) return [...this.fields].find(({ dataset }) => dataset.path === path)?.focus();
    const table = [...this.tables].find((one) => one.bore === bore);
    await table?.updateComplete;
    if (cell) table?.focusCell(cell);
    else table?.scrollIntoView({ block: "nearest" });
  }
}

const sectionsByKey: Readonly<Record<string, Section>> = {
  mouthpiece: "Mouthpiece",
  receiver: "Receiver",
  leadpipe: "Leadpipe",
  body: "Body",
  air: "Air",
  model: "Model",
  thresholds: "Just noticeable",
  uncertainties: "How well it is known",
};

const sectionOf = (path: string): Section => sectionsByKey[keysOf(path)[0]] ?? "Name and notes";

declare global {
  interface HTMLElementTagNameMap {
    "annulus-editor": AnnulusEditor;
    "annulus-profile-table": AnnulusProfileTable;
  }
}
