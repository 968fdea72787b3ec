/**
 * Keeps document and view in the browser, so that nothing is lost by closing the page or by the browser's end. Each tab
 * keeps its own, which a reload brings back; a new tab begins with what any tab kept last. The shelves can be read and
 * written without waiting but reach the disk seconds later; the places that are written through come beside them, and of
 * all that is found the newest counts.
 */
import { newId } from "../../../record/job.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { downloadAsJob, textsOf } from "../record/jobFile.ts";
import { type JobMark, readJobMark } from "../record/jobMark.ts";
import type { Document, State, View } from "../state.ts";
import type { Store } from "../store.ts";
import { readDocument, writeDocument } from "./documentFile.ts";
import { readView } from "./viewFile.ts";
import type { Working } from "./workingStore.ts";

const KEY = "annulus-autosave";
/** With the time to write it well within the second that is promised. */
const DELAY_MS = 150;
/** To see whether there is room again. */
const RETRY_MS = 2000;

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

/**
 * The newest of the tab's own work if it has any that can be read, else of anybody's.
 *
 * @param workings what the places hold that are written through
 */
export function restore(shelves: Shelves, workings: readonly Working[] = []): Restored {
  let broken: Restored["broken"] = null;
  for (const text of newestFirst(shelves, workings)) {
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

/** The shelves' texts as they are. */
export const shelved = ({ tab, browser }: Shelves): readonly string[] =>
  [kept(tab), kept(browser)].filter((text) => text !== null);

/** When the newest of all was kept; 0 where nothing says. */
export const lastStamp = ({ tab, browser }: Shelves, workings: readonly Working[]): number =>
  Math.max(0, stampOf(kept(tab)).stamp, stampOf(kept(browser)).stamp, ...workings.map(({ stamp }) => stamp));

function newestFirst({ tab, browser }: Shelves, workings: readonly Working[]): string[] {
  const own = stampOf(kept(tab));
  const newest = (all: readonly Working[]) =>
    all.toSorted((a, b) => b.stamp - a.stamp).map(({ text }) => text);
  const owns = workings.filter(({ key }) => key === own.key);
  const others = workings.filter(({ key }) => key !== own.key);
  const texts = [
    ...(own.text === "" ? [] : newest([own, ...owns])),
    ...newest([stampOf(kept(browser)), ...others, ...owns]),
  ];
  return [...new Set(texts)].filter((text) => text !== "");
}

/** Of a shelf's text: whose it is and when it was kept, where it says. */
function stampOf(text: string | null): Working {
  try {
    const json: unknown = JSON.parse(text ?? "null");
    const { key, stamp } = isRecord(json) ? json : {};
    if (typeof key === "string" && Number.isFinite(stamp))
      return { key, stamp: stamp as number, text: text ?? "" };
  } catch {
    // it is for `restore` to say what is broken
  }
  return { key: "", stamp: 0, text: text ?? "" };
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

/** A place that is written through to the disk. */
export interface Place {
  /** Rejects where it is not on the disk. */
  put(working: Working): Promise<void>;
}

export interface Places {
  /** The one that counts. */
  readonly database: Place;
  /** Beside it. */
  readonly copy: Place;
  /** When anything was kept last. */
  readonly since: number;
}

export class Autosave {
  readonly #store: Store;
  readonly #shelves: Shelves;
  readonly #marking: Marking | null;
  readonly #places: Places | null;
  /** Anew at every load: a tab that was duplicated is another. */
  readonly #key = newId();
  #stamp: number;
  #saved: State;
  #savedMark: string;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #hasComplained = false;
  /** The newest, on its way to the disk or there; null: nothing was changed yet. */
  #working: Working | null = null;
  #writing: Promise<void> | null = null;

  constructor(store: Store, shelves: Shelves, marking: Marking | null = null, places: Places | null = null) {
    this.#store = store;
    this.#shelves = shelves;
    this.#marking = marking;
    this.#places = places;
    this.#stamp = places?.since ?? 0;
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
    this.#stamp = Math.max(Date.now(), this.#stamp + 1);
    const [key, stamp] = [this.#key, this.#stamp];
    const text = JSON.stringify({ document: writeDocument(document), view, job, key, stamp });
    const isKept = [this.#shelves.tab, this.#shelves.browser].map((shelf) => keep(shelf, text));
    this.#working = { key, stamp, text };
    if (this.#places) this.#writing ??= this.#write(this.#places);
    else if (!isKept.includes(true)) this.#complain(NOT_ALLOWED);
  }

  /** Saves what is not saved yet; resolves when it is on the disk, or will not go there. */
  async saved(): Promise<void> {
    this.save();
    await this.#writing;
  }

  /** What was written is no longer there: writes it again. */
  again(): void {
    if (this.#places && this.#working) this.#writing ??= this.#write(this.#places);
  }

  /** Until the newest is written. */
  async #write({ database, copy }: Places): Promise<void> {
    let written: Working | null = null;
    let isKept = false;
    while (written !== this.#working) {
      written = this.#working!;
      // a copy that does not answer holds nothing up
      const copied = copy.put(written).then(
        () => true,
        () => false,
      );
      isKept = await database.put(written).then(
        () => true,
        () => copied,
      );
    }
    this.#writing = null;
    if (isKept) return this.#allIsWell();
    this.#complain(NOT_WRITTEN);
    setTimeout(() => this.again(), RETRY_MS);
  }

  #complain(text: string): void {
    if (this.#hasComplained) return;
    this.#hasComplained = true;
    const accept = () => {
      const { document } = this.#store.state;
      downloadAsJob(writeDocument(document), textsOf(document));
    };
    this.#store.say("error", text, { label: "Save it as a file", accept });
  }

  #allIsWell(): void {
    if (!this.#hasComplained) return;
    this.#hasComplained = false;
    this.#store.say("note", "The browser can write to the disk again: all that you see is kept.");
  }
}

const NOT_ALLOWED = "This browser does not let the page keep your work: save it to a file before leaving.";
const NOT_WRITTEN =
  "The browser cannot write to the disk, which is full or forbidden to this page: what you type now is not kept. Make room, or save it as a file before you close this tab.";

function keep(shelf: Shelf | null, text: string): boolean {
  try {
    shelf?.setItem(KEY, text);
    return shelf !== null;
  } catch {
    return false;
  }
}
