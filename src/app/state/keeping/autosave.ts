/**
 * Keeps document and view in the browser, so that nothing is lost by closing the page or by the browser's end. Each tab
 * keeps its own, which a reload brings back; a new tab begins with what any tab kept last. The shelves can be read and
 * written without waiting but reach the disk seconds later; the places that are written through come beside them, and of
 * all that is found the newest counts.
 */
import { newId } from "../../../record/job.ts";
import { whenIdle } from "../frames.ts";
import type { JobMark } from "../record/jobMark.ts";
import { textsOf } from "../record/jobTexts.ts";
import { saveAsFile } from "../record/saveAsFile.ts";
import type { State } from "../state.ts";
import type { Store } from "../store.ts";
import { writeDocument } from "./documentFile.ts";
import { keep, type Shelves } from "./shelves.ts";
import type { Working } from "./workingStore.ts";

/** When nothing has changed for so long, it is saved: a hand that moves does not have to wait for it at every step. */
const QUIET_MS = 150;
/** But no later after a change. */
const MOST_MS = 500;
/** Then between two frames, so soon that there is time to write it well within the second that is promised. */
const IDLE_MS = 200;
/** To see whether there is room again. */
const RETRY_MS = 2000;

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
  /** When the first and the last change came that are not saved. */
  #changedFrom = 0;
  #changedLast = 0;
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

  /** Saves soon after a change, and at once when the page is being left or hidden. */
  start(page: Window = window): void {
    const saveOnceQuiet = () => {
      const waitMs = Math.min(this.#changedLast + QUIET_MS, this.#changedFrom + MOST_MS) - performance.now();
      if (waitMs > 0) this.#timer = setTimeout(saveOnceQuiet, waitMs);
      else whenIdle(() => this.save(), IDLE_MS);
    };
    const soon = () => {
      this.#changedLast = performance.now();
      if (this.#timer !== undefined) return;
      this.#changedFrom = this.#changedLast;
      this.#timer = setTimeout(saveOnceQuiet, QUIET_MS);
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
      void saveAsFile(writeDocument(document), textsOf(document));
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
