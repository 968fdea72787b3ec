/**
 * The panel in which every dimension of the instrument is typed. What is refused stays where it was typed, with the
 * reason beside it; the setup in use is always one that makes an instrument. Tells by `close` that it is done with.
 */

import { html, nothing, type PropertyValues } from "lit";
import { customElement, queryAll, state } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import { mouthpieceOfShape } from "../../../setup/bore/mouthpieceShape.ts";
import {
  hasDimension,
  isProvenanceDimension,
  type ProvenanceDimension,
  provenanceOf,
  withProvenance,
} from "../../../setup/dimension/provenance.ts";
import { gapMm, type Provenance, type Setup } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { PROVENANCE_WORD, PROVENANCES } from "../../../words/provenance.ts";
import { problemText, shownTexts } from "../../form/setup/edits.ts";
import { icon } from "../../shell/look/icon.ts";
import { setupFileText } from "../../state/keeping/setupFile.ts";
import { PageElement } from "../../state/page.ts";
import { type Air, type AirKind, withAirKind } from "./airKind.ts";
import { copyText } from "./clipboard.ts";
import { afterRows, type Draft, flawDrafts, inUnit, standing, take } from "./drafts.ts";
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
import { cellAt, cellPath, keysOf, type Part } from "../../form/setup/paths.ts";
import "../../form/setup/warnings.ts";
import { type BeginEvent, standInNote } from "../../form/standInChoice.ts";
import "./mouthpieceNumbers.ts";
import type { DrawMouthpiece, TypedNumbers } from "./mouthpieceNumbers.ts";
import "./profileTable.ts";
import { isUndoKey } from "../../form/undoKey.ts";
import type { AnnulusProfileTable, ProfileActions } from "./profileTable.ts";
import { insertRowAfter, removeRow, replaceRows, withMouthpieceBore } from "./rows.ts";
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
  @state() private drafts: readonly Draft[] = [];
  @state() private copied = "";
  @queryAll("annulus-entry") private fields!: NodeListOf<Entry>;
  @queryAll("annulus-profile-table") private tables!: NodeListOf<AnnulusProfileTable>;
  /** What is typed of a mouthpiece and not drawn yet. */
  readonly #typedNumbers: TypedNumbers = new Map();
  /** The air of either kind as the person had it. */
  readonly #airs = new Map<AirKind, Air>();
  #shown: (path: string) => string = () => "";
  /** What was refused, and what of a kept setup is by now. */
  #toCorrect: readonly Draft[] = [];
  #profileDrafts: Readonly<Record<Part, readonly Draft[]>> = { mouthpiece: [], leadpipe: [], body: [] };

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

  /** What is edited: the instrument as it is. Where the slider stands is a view, which nothing here writes down. */
  get #setup(): Setup {
    return this.page.store.parts.document.setup;
  }

  get #unit() {
    return this.page.store.parts.view.unit;
  }

  override willUpdate(_: PropertyValues): void {
    const setup = this.#setup;
    this.drafts = inUnit(standing(setup, this.drafts), this.#unit);
    this.#shown = shownTexts(setup, this.#unit);
    const flaws = flawDrafts(setup, this.#unit).filter(
      ({ path }) => !this.drafts.some((draft) => draft.path === path),
    );
    this.#toCorrect = [...this.drafts, ...flaws];
    this.#profileDrafts = {
      mouthpiece: this.#draftsOf("mouthpiece"),
      leadpipe: this.#draftsOf("leadpipe"),
      body: this.#draftsOf("body"),
    };
  }

  /** The refused texts of a profile; the same list while they are the same, so that its table is left alone. */
  #draftsOf(bore: Part): readonly Draft[] {
    const old = this.#profileDrafts[bore];
    const drafts = this.#toCorrect.filter(({ path }) => cellAt(path)?.part === bore);
    return drafts.length === old.length && drafts.every((draft, i) => draft === old[i]) ? old : drafts;
  }

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
        <annulus-stand-in-choice @begin=${this.#beginWith}></annulus-stand-in-choice>
        <div class="parts">
          ${SECTIONS.map((name) => this.#section(name))}
        </div>
      </section>
    `;
  }

  /** Undo brings back what was open. */
  readonly #beginWith = ({ detail: setup }: BeginEvent): void => {
    this.drafts = [];
    this.page.store.open(setup);
    this.page.store.say("note", standInNote(setup));
  };

  #section(name: Section) {
    const toCorrect = this.#toCorrect.filter(({ path }) => sectionOf(path) === name).length;
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
    const setup = this.#setup;
    if (!hasDimension(setup, dimension)) return nothing;
    const own = provenanceOf(setup, dimension);
    const choose = ({ target }: Event) => {
      const { value } = target as HTMLSelectElement;
      this.#commit(withProvenance(this.#setup, value as Provenance, dimension));
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
    const isAsked = this.#setup.provenance[path] === "measured" && uncertainty;
    const asked = { ...uncertainty, label: `${label}: standard uncertainty` } as SetupField;
    return html`${this.#origin(path, label)}${isAsked ? this.#field(asked) : nothing}`;
  }

  #fields(fields: readonly SetupField[]) {
    return fields.map((field) => [this.#field(field), this.#known(field.path, field.label)]);
  }

  #field(field: SetupField) {
    const { path } = field;
    const draft = this.#toCorrect.find((one) => one.path === path);
    const standing = this.#shown(path);
    return html`<annulus-entry
        beside
        ?tall=${field.kind === "words"}
        data-path=${path}
        .label=${field.label}
        .hint=${field.hint(this.#unit)}
        .unit=${field.unit(this.#unit)}
        .optional=${field.isOptional}
        .lines=${field.lines ?? 1}
        .choices=${field.choices ?? null}
        .standing=${standing}
        .usualMm=${field.usualMm ?? null}
        .text=${draft?.text ?? standing}
        .problem=${draft?.message ?? ""}
        @write=${(event: WriteEvent) => this.#onWrite(path, event)}
        @takeback=${() => this.#takeBack(path)}
      ></annulus-entry>`;
  }

  /** What was typed otherwise than it is shown, `1/8 in`, is shown as it is understood. */
  async #onWrite(path: string, { detail, target }: WriteEvent): Promise<void> {
    if (!detail.done) return;
    this.#enter(path, detail.text);
    await this.updateComplete;
    const entry = target as Entry;
    entry.text = this.drafts.find((one) => one.path === path)?.text ?? this.#shown(path);
  }

  #gap() {
    const gap = formatLength(gapMm(this.#setup), this.#unit);
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
                .mouthpiece=${this.#setup.mouthpiece}
                .unit=${this.#unit}
                .typed=${this.#typedNumbers}
                .draw=${this.#drawMouthpiece}
              ></annulus-mouthpiece-numbers>`
            : nothing
        }
      </details>
    `;
  }

  /**
   * One undo step: the whole bore of the mouthpiece, and its cup depth. The bore is somebody's drawing once all its numbers were
   * typed; with one left as it stood, it is no better known than before.
   */
  readonly #drawMouthpiece: DrawMouthpiece = (shape, { isDepthTyped, isAllTyped }) => {
    const outcome = withMouthpieceBore(this.#setup, mouthpieceOfShape(shape), shape.cupDepthMm);
    if (!("setup" in outcome)) return problemText(outcome.problems, "mouthpiece.profile");
    this.drafts = this.drafts.filter(
      ({ path }) => cellAt(path)?.part !== "mouthpiece" && path !== "mouthpiece.cupDepth",
    );
    let { setup } = outcome;
    if (isDepthTyped) setup = withProvenance(setup, "measured", "mouthpiece.cupDepth");
    if (isAllTyped) setup = withProvenance(setup, "file", "mouthpiece.profile");
    this.#commit(setup);
    return "";
  };

  #profile(bore: Part) {
    const name = `${bore} profile`;
    const { profileMm } = this.#setup[bore];
    const [startMm, endMm] = [profileMm[0][0], profileMm[profileMm.length - 1][0]];
    const extent = `${formatLength(startMm, this.#unit)} to ${formatLength(endMm, this.#unit)}`;
    return html`
      ${this.#origin(`${bore}.profile`, `${bore} bore profile`)}
      <details ?open=${this.open.has(name)} @toggle=${(event: Event) => this.#toggled(name, event)}>
        <summary>Bore profile <span class="hint">${profileMm.length} rows, ${extent}</span></summary>
        ${
          this.open.has(name)
            ? html`<annulus-profile-table
                .bore=${bore}
                .profileMm=${profileMm}
                .unit=${this.#unit}
                .drafts=${this.#profileDrafts[bore]}
                .actions=${this.#actions}
              ></annulus-profile-table>`
            : nothing
        }
      </details>
    `;
  }

  #air() {
    const { kind } = this.#setup.air;
    const choice = (value: AirKind, words: string) => html`
      <label class="choice">
        <input type="radio" name="air" value=${value} .checked=${kind === value} @change=${() => this.#chooseAir(value)}>
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
    const text = setupFileText(this.#setup);
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

  #enter(path: string, text: string): void {
    const { setup, drafts } = take(this.#setup, this.drafts, { path, text, unit: this.#unit });
    this.#commit(setup);
    this.drafts = drafts;
  }

  #takeBack(path: string): void {
    this.drafts = this.drafts.filter((draft) => draft.path !== path);
  }

  #chooseAir(kind: AirKind): void {
    const { air } = this.#setup;
    this.#airs.set(air.kind, air);
    this.drafts = this.drafts.filter(({ path }) => !path.startsWith("air."));
    this.#commit(withAirKind(this.#setup, kind, this.#airs.get(kind)));
  }

  readonly #actions: ProfileActions = {
    enter: (cell, text) => this.#enter(cellPath(cell), text),
    takeBack: (cell) => this.#takeBack(cellPath(cell)),
    insertAfter: (bore, row) => {
      const outcome = insertRowAfter(this.#setup, bore, row);
      if (!("setup" in outcome)) return problemText(outcome.problems, `${bore}.profile`);
      this.#commit(outcome.setup);
      this.drafts = afterRows(outcome.setup, this.drafts, bore, row + 1, 1);
      return null;
    },
    remove: (bore, row) => {
      const outcome = removeRow(this.#setup, bore, row);
      if (!("setup" in outcome)) return problemText(outcome.problems, `${bore}.profile`);
      this.#commit(outcome.setup);
      this.drafts = afterRows(outcome.setup, this.drafts, bore, row, -1);
      return null;
    },
    replace: (bore, rowsMm, from) => {
      const outcome = replaceRows(this.#setup, bore, rowsMm, from);
      if (!("setup" in outcome)) return outcome.problems;
      this.drafts = this.drafts.filter(({ path }) => cellAt(path)?.part !== bore);
      // a whole table of them comes from a file
      const isWhole = from === null && outcome.setup !== this.#setup;
      this.#commit(isWhole ? withProvenance(outcome.setup, "file", `${bore}.profile`) : outcome.setup);
      return [];
    },
  };

  /** One undo step. The what-if stays unless the insertion or the depth was typed; then it is the gap they make. */
  #commit(edited: Setup): void {
    if (edited !== this.#setup) this.page.store.setSetup(Object.freeze(edited));
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
