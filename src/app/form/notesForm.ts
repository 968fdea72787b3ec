/**
 * A task's form on the page: its texts as they are kept in the document, in the unit that is shown, and the entries that write
 * them. A whole entry is one undo step; what is wrong with a text is said when it is finished.
 *
 *     readonly #form = new NotesForm(this, "cut", cutForm);
 *     render() { return this.#form.entry(cutForm.parts.target, ["target"], problem); }
 */
import { html, type ReactiveController, type TemplateResult } from "lit";
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
  /** Entries between which Enter jumps from an empty one. */
  readonly group?: string;
  readonly testId?: string;
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

  /** Takes an item of a list out. */
  remove(path: Path): void {
    this.#host.page.store.setNotes(this.#part, withoutItem(this.notes, path) as Notes[Part]);
  }

  /** The text at a place; empty where there is none yet. */
  textAt(path: Path): string {
    let found: unknown = this.notes;
    for (const key of path) found = (found as Readonly<Record<string | number, unknown>> | undefined)?.[key];
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
      .problem=${this.typing === key ? "" : problem}
      @write=${({ detail }: WriteEvent) => this.#write(path, key, detail.text, detail.done)}
    ></annulus-entry>`;
  }

  #write(path: Path, key: string, text: string, done: boolean): void {
    this.#setTyping(done ? "" : key);
    const notes = withText(this.notes, path, text) as Notes[Part];
    this.#host.page.store.setNotes(this.#part, notes, { commit: done });
  }

  readonly #leave = (): void => this.#setTyping("");

  #setTyping(key: string): void {
    if (key === this.typing) return;
    this.typing = key;
    this.#host.requestUpdate();
  }
}

/** The same with a text at a place; a list grows as far as needed and loses the empty texts at its end. */
export function withText(within: unknown, [key, ...rest]: Path, text: string): unknown {
  if (Array.isArray(within) || typeof key === "number") {
    const old = (within ?? []) as readonly unknown[];
    const at = key as number;
    const grown = Array.from({ length: Math.max(at + 1, old.length) }, (_, i) =>
      i !== at ? (old[i] ?? "") : rest.length > 0 ? withText(old[i], rest, text) : text,
    );
    return grown.slice(0, grown.findLastIndex((one) => typeof one !== "string" || one.trim() !== "") + 1);
  }
  const old = (within ?? {}) as Readonly<Record<string, unknown>>;
  return { ...old, [key]: rest.length > 0 ? withText(old[key], rest, text) : text };
}

/** The same without an item of a list: those after it move up. */
export function withoutItem(within: unknown, [key, ...rest]: Path): unknown {
  if (rest.length === 0) return (within as readonly unknown[]).filter((_, i) => i !== key);
  const old = within as Readonly<Record<string, unknown>>;
  return { ...old, [key]: withoutItem(old[key], rest) };
}
