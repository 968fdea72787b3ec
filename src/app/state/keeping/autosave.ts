/**
 * Keeps document and view in the browser, so that nothing is lost by closing the page. Each tab keeps its own, which a
 * reload brings back; a new tab begins with what any tab kept last.
 */
import { type JobMark, readJobMark } from "../record/jobMark.ts";
import type { Document, State, View } from "../state.ts";
import type { Store } from "../store.ts";
import { readDocument, writeDocument } from "./documentFile.ts";
import { readView } from "./viewFile.ts";

const KEY = "annulus-autosave";
const DELAY_MS = 250;

/** Where a text can be kept under a name; the browser's own may refuse at any time. */
export type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem">;

export interface Shelves {
  readonly tab: Shelf | null;
  readonly browser: Shelf | null;
}

/** What was found at the start. */
export interface Restored {
  readonly document: Document | null;
  /** Where the document stood in the record of jobs; null: it was none. */
  readonly mark: JobMark | null;
  readonly view: View | null;
  /** A kept text that cannot be read, and why: the person's work, to be offered and not thrown away. */
  readonly broken: { readonly text: string; readonly reason: string } | null;
}

/** The browser's shelves; null for one that its settings forbid. */
export function browserShelves(page: Window = window): Shelves {
  const allowed = (shelf: () => Shelf): Shelf | null => {
    try {
      return shelf();
    } catch {
      return null;
    }
  };
  return { tab: allowed(() => page.sessionStorage), browser: allowed(() => page.localStorage) };
}

/** The tab's own work if it has any that can be read, else the browser's. */
export function restore({ tab, browser }: Shelves): Restored {
  let broken: Restored["broken"] = null;
  for (const shelf of [tab, browser]) {
    const text = kept(shelf);
    if (text === null) continue;
    try {
      const { document, view, job } = JSON.parse(text) as Record<string, unknown>;
      const mark = readJobMark(job);
      const read = readDocument(document);
      return { document: mark ? { ...read, job: mark.id } : read, mark, view: readView(view), broken };
    } catch (error) {
      broken ??= { text, reason: error instanceof Error ? error.message : String(error) };
    }
  }
  return { document: null, mark: null, view: null, broken };
}

/** How the page was looked at last, by this tab or else by any. */
export function restoreView({ tab, browser }: Shelves): View | null {
  for (const shelf of [tab, browser])
    try {
      const text = kept(shelf);
      if (text !== null) return readView((JSON.parse(text) as Record<string, unknown>).view);
    } catch {
      // it is the page that says what is broken, where it can be saved
    }
  return null;
}

function kept(shelf: Shelf | null): string | null {
  try {
    return shelf?.getItem(KEY) ?? null;
  } catch {
    return null;
  }
}

/** Tells where the open document stands in the record of jobs, and when that has changed. */
export interface Marking {
  readonly mark: JobMark | null;
  subscribe(listener: () => void): () => void;
}

export class Autosave {
  readonly #store: Store;
  readonly #shelves: Shelves;
  readonly #marking: Marking | null;
  #saved: State;
  #savedMark: string;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #hasComplained = false;

  constructor(store: Store, shelves: Shelves, marking: Marking | null = null) {
    this.#store = store;
    this.#shelves = shelves;
    this.#marking = marking;
    this.#saved = store.state;
    this.#savedMark = JSON.stringify(marking?.mark);
  }

  /** Saves soon after every change, and at once when the page is being left or hidden. */
  start(page: Window = window): void {
    const soon = () => {
      this.#timer ??= setTimeout(() => this.save(), DELAY_MS);
    };
    this.#store.subscribe(soon);
    this.#marking?.subscribe(soon);
    page.addEventListener("pagehide", () => this.save());
    page.document.addEventListener("visibilitychange", () => {
      if (page.document.visibilityState === "hidden") this.save();
    });
  }

  save(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const { document, view } = this.#store.state;
    const job = this.#marking?.mark ?? undefined;
    const mark = JSON.stringify(job);
    if (document === this.#saved.document && view === this.#saved.view && mark === this.#savedMark) return;
    this.#saved = this.#store.state;
    this.#savedMark = mark;
    const text = JSON.stringify({ document: writeDocument(document), view, job });
    const isKept = [this.#shelves.tab, this.#shelves.browser].map((shelf) => keep(shelf, text));
    if (!isKept.includes(true) && !this.#hasComplained) {
      this.#hasComplained = true;
      this.#store.say(
        "error",
        "This browser does not let the page keep your work: save it to a file before leaving.",
      );
    }
  }
}

function keep(shelf: Shelf | null, text: string): boolean {
  try {
    shelf?.setItem(KEY, text);
    return shelf !== null;
  } catch {
    return false;
  }
}
