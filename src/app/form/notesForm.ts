/**
 * A task's form on the page: its texts as they are kept in the document, in the unit that is shown, and the entries that write
 * them. A whole entry is one undo step; what is wrong with a text is said when it is finished.
 *
 *     readonly #form = new NotesForm(this, "cut", cutForm);
 *     render() { return this.#form.entry(cutForm.parts.target, ["target"], problem); }
 */
import { html, nothing, type ReactiveController, type TemplateResult } from "lit";
import type { LengthUnit } from "../../units/length.ts";
import type { Notes } from "../state/notes/notes.ts";
import type { PageElement } from "../state/page.ts";
import "./entry.ts";
import type { WriteEvent } from "./entry.ts";
import type { Field } from "./field.ts";

/** Where a text stands in the form: `["depthTool", "zero"]`. */
export type Path = readonly (string | number)[];

/** Something kept whose bare lengths are in a unit kept with it. */
interface InAUnit<Written> {
  readonly shownIn: (written: Written, unit: LengthUnit) => Written;
}

export interface EntryOptions {
  /** Instead of the field's own. */
  readonly label?: string;
  readonly hint?: string;
  /** Whose label is not drawn, as in a table. */
  readonly bare?: boolean;
  /** What is wrong is said while it is typed: one number alone in its place, beside what follows from it. */
  readonly saidAtOnce?: boolean;
  /** Entries between which Enter jumps from an empty one. */
  readonly group?: string;
  readonly testId?: string;
}

/** What is kept, and how it is called. */
export type Choice = readonly [value: string | number | null, words: string];

export interface TextareaOptions {
  readonly testId: string;
  readonly placeholder?: string;
  /** Id of what the text is understood as. */
  readonly describedBy?: string;
  /** Writes the text instead, with what goes with it. */
  readonly write?: (text: string, options: { readonly commit: boolean }) => void;
}

export class NotesForm<Part extends keyof Notes> implements ReactiveController {
  /** The entry under a hand. */
  typing = "";
  readonly #host: PageElement;
  readonly #part: Part;
  readonly #schema: InAUnit<Notes[Part]>;
  #shown: { readonly of: Notes[Part]; readonly unit: LengthUnit; readonly notes: Notes[Part] } | null = null;

  constructor(host: PageElement, part: Part, schema: InAUnit<Notes[Part]>) {
    this.#host = host;
    this.#part = part;
    this.#schema = schema;
    host.addController(this);
  }

  hostConnected(): void {
    this.#host.addEventListener("focusout", this.#leave);
  }

  hostDisconnected(): void {
    this.#host.removeEventListener("focusout", this.#leave);
  }

  get unit(): LengthUnit {
    return this.#host.page.store.parts.view.unit;
  }

  /** As written down, bare numbers in the unit shown; the same object until something else is written. */
  get notes(): Notes[Part] {
    const { unit } = this;
    const of = this.#host.page.store.parts.document.notes[this.#part];
    if (this.#shown?.of !== of || this.#shown.unit !== unit)
      this.#shown = { of, unit, notes: this.#schema.shownIn(of, unit) };
    return this.#shown.notes;
  }

  /** Writes some of it anew, into what is written by now. */
  write(part: Partial<Notes[Part]>, { commit = true } = {}): void {
    this.#host.page.store.setNotes(this.#part, { ...this.notes, ...part }, { commit });
  }

  /** Writes some of one part of it anew, such as `shape`. */
  writeIn<Name extends keyof Notes[Part]>(
    name: Name,
    part: Partial<Notes[Part][Name]>,
    options?: { readonly commit?: boolean },
  ): void {
    const written: Partial<Notes[Part]> = {};
    written[name] = { ...this.notes[name], ...part };
    this.write(written, options);
  }

  /** Takes an item of a list out. */
  remove(path: Path): void {
    this.#host.page.store.setNotes(this.#part, withoutItem(this.notes, path) as Notes[Part]);
  }

  /** The text at a place; empty where there is none yet. */
  textAt(path: Path): string {
    const found = this.#at(path);
    return typeof found === "string" ? found : "";
  }

  /** @param problem what is wrong with the text; empty where nothing is */
  entry(field: Field<unknown>, path: Path, problem = "", options: EntryOptions = {}): TemplateResult {
    const key = path.join(".");
    return html`<annulus-entry
      ?bare=${options.bare ?? false}
      data-field=${key}
      data-group=${options.group ?? ""}
      data-testid=${options.testId ?? key}
      .label=${options.label ?? field.label}
      .hint=${options.hint ?? field.hint(this.unit)}
      .unit=${field.unit(this.unit)}
      .text=${this.textAt(path)}
      .usualMm=${field.usualMm ?? null}
      .problem=${this.typing === key && !options.saidAtOnce ? "" : problem}
      @write=${({ detail }: WriteEvent) => this.#write(path, key, detail.text, detail.done)}
    ></annulus-entry>`;
  }

  /** A yes or no. */
  tick(path: Path, label: string, testId: string): TemplateResult {
    const put = ({ target }: Event) => this.#put(path, (target as HTMLInputElement).checked);
    return html`
      <label class="tick">
        <input type="checkbox" data-testid=${testId} .checked=${this.#at(path) === true} @change=${put} />
        ${label}
      </label>
    `;
  }

  /** One of several; what else is to know of the one chosen stands below. */
  choice(
    path: Path,
    label: string,
    choices: readonly Choice[],
    { testId, reason }: { readonly testId: string; readonly reason?: string },
  ): TemplateResult {
    const chosen = this.#at(path);
    const put = ({ target }: Event) =>
      this.#put(path, choices[(target as HTMLSelectElement).selectedIndex][0]);
    return html`
      <label>
        <span>${label}</span>
        <select data-testid=${testId} @change=${put}>
          ${choices.map(([value, words]) => html`<option value=${value ?? ""} ?selected=${value === chosen}>${words}</option>`)}
        </select>
        ${reason === undefined ? nothing : html`<span class="reason">${reason}</span>`}
      </label>
    `;
  }

  /** Many lines. What is pasted can be judged at once; it is one undo step with what is typed after it. */
  textarea(path: Path, { testId, placeholder, describedBy, write }: TextareaOptions): TemplateResult {
    const key = path.join(".");
    const tell = (event: Event, done: boolean) => {
      const { value } = event.target as HTMLTextAreaElement;
      this.#setTyping(done || (event as InputEvent).inputType === "insertFromPaste" ? "" : key);
      if (write) write(value, { commit: done });
      else this.#put(path, value, done);
    };
    return html`<textarea
      id="text"
      rows="9"
      spellcheck="false"
      autocomplete="off"
      placeholder=${placeholder ?? nothing}
      data-testid=${testId}
      aria-describedby=${describedBy ?? nothing}
      .value=${this.textAt(path)}
      @input=${(event: Event) => tell(event, false)}
      @change=${(event: Event) => tell(event, true)}
    ></textarea>`;
  }

  #write(path: Path, key: string, text: string, done: boolean): void {
    this.#setTyping(done ? "" : key);
    this.#put(path, text, done);
  }

  #at(path: Path): unknown {
    let found: unknown = this.notes;
    for (const key of path) found = (found as Readonly<Record<string | number, unknown>> | undefined)?.[key];
    return found;
  }

  #put(path: Path, value: unknown, commit = true): void {
    this.#host.page.store.setNotes(this.#part, withValue(this.notes, path, value) as Notes[Part], { commit });
  }

  readonly #leave = (): void => this.#setTyping("");

  #setTyping(key: string): void {
    if (key === this.typing) return;
    this.typing = key;
    this.#host.requestUpdate();
  }
}

/** The same with a text, or anything else, at a place; a list grows as far as needed and loses the empty texts at its end. */
export function withValue(within: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (Array.isArray(within) || typeof key === "number") {
    const old = (within ?? []) as readonly unknown[];
    const at = key as number;
    const grown = Array.from({ length: Math.max(at + 1, old.length) }, (_, i) =>
      i !== at ? (old[i] ?? "") : rest.length > 0 ? withValue(old[i], rest, value) : value,
    );
    return grown.slice(0, grown.findLastIndex((one) => typeof one !== "string" || one.trim() !== "") + 1);
  }
  const old = (within ?? {}) as Readonly<Record<string, unknown>>;
  return { ...old, [key]: rest.length > 0 ? withValue(old[key], rest, value) : value };
}

/** The same without an item of a list: those after it move up. */
export function withoutItem(within: unknown, [key, ...rest]: Path): unknown {
  if (rest.length === 0) return (within as readonly unknown[]).filter((_, i) => i !== key);
  const old = within as Readonly<Record<string, unknown>>;
  return { ...old, [key]: withoutItem(old[key], rest) };
}
