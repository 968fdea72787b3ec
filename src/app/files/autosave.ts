/**
 * Keeps document and view in the browser, so that nothing is lost by closing the page. Each tab keeps its own, which a
 * reload brings back; a new tab begins with what any tab kept last.
 */
import type { Document, State, View } from "../store/state.ts";
import type { Store } from "../store/store.ts";
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
      const { document, view } = JSON.parse(text) as Record<string, unknown>;
      return { document: readDocument(document), view: readView(view), broken };
    } catch (error) {
      broken ??= { text, reason: error instanceof Error ? error.message : String(error) };
    }
  }
  return { document: null, view: null, broken };
}

function kept(shelf: Shelf | null): string | null {
  try {
    return shelf?.getItem(KEY) ?? null;
  } catch {
    return null;
  }
}

export class Autosave {
  readonly #store: Store;
  readonly #shelves: Shelves;
  #saved: State;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #hasComplained = false;

  constructor(store: Store, shelves: Shelves) {
    this.#store = store;
    this.#shelves = shelves;
    this.#saved = store.state;
  }

  /** Saves soon after every change, and at once when the page is being left or hidden. */
  start(page: Window = window): void {
    this.#store.subscribe(() => {
      this.#timer ??= setTimeout(() => this.save(), DELAY_MS);
    });
    page.addEventListener("pagehide", () => this.save());
    page.document.addEventListener("visibilitychange", () => {
      if (page.document.visibilityState === "hidden") this.save();
    });
  }

  save(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const { document, view } = this.#store.state;
    if (document === this.#saved.document && view === this.#saved.view) return;
    this.#saved = this.#store.state;
    const text = JSON.stringify({ document: writeDocument(document), view });
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
