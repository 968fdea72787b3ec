/**
 * The job that is open in this tab, kept in the record soon after every change, and what the person does with it. The tab's
 * own shelf (autosave) is the net under this: it holds what the record does not have yet, or will not take.
 */
import type { JobTexts } from "../../../record/job.ts";
import { sameRevision } from "../../../record/revision.ts";
import { writeDocument } from "../keeping/documentFile.ts";
import { Observable } from "../observable.ts";
import type { Document } from "../state.ts";
import type { Store } from "../store.ts";
import { Agreements } from "./agreement.ts";
import type { Loss, Row } from "./database.ts";
import type { JobMark } from "./jobMark.ts";
import type { JobRecord } from "./jobRecord.ts";
import type { JobSync } from "./jobSync.ts";
import { textsOf } from "./jobTexts.ts";
import { LATER_HERE, sayLater, sayRecovered, sayTrouble } from "./openJobMessages.ts";
import { troubleOf, troubleText } from "./trouble.ts";

const DELAY_MS = 500;
/** To see whether the browser can write again. */
const RETRY_MS = 2000;

const LOST = "The browser has lost its database of jobs";

export interface OpenJobState {
  /** null: not there yet, or refused. */
  readonly record: JobRecord | null;
  /** Why there is no record, in words. */
  readonly refusal: string | null;
  /** The job that is open, as the record lists it. */
  readonly row: Row | null;
  /** Why the newest of it is not in the record, in words. */
  readonly trouble: string | null;
  /** Whether the browser has promised not to clear what is kept by itself; null: it has not been asked, or says nothing. */
  readonly isPersisted: boolean | null;
}

export class OpenJob extends Observable<OpenJobState> {
  readonly #store: Store;
  readonly #connect: () => Promise<JobRecord>;
  readonly #isUntouched: (document: Document) => boolean;
  readonly #agreed = new Agreements();
  /** There once a record is; what it takes to read a kept job comes with it. */
  #sync!: JobSync;
  #last: Document;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** One thing after the other. */
  #work: Promise<void> = Promise.resolve();
  #unwatch: (() => void) | null = null;
  #started: Promise<void> | null = null;
  #hasAskedToPersist = false;
  /** Notes on the disk what this tab has, before it writes to the record. */
  announce: () => Promise<void> = async () => {};

  /**
   * @param mark where the restored document stood in the record
   * @param isUntouched whether a document is one that every visit begins with, which nobody misses
   */
  constructor(
    store: Store,
    connect: () => Promise<JobRecord>,
    mark: JobMark | null,
    isUntouched: (document: Document) => boolean,
  ) {
    super({ record: null, refusal: null, row: null, trouble: null, isPersisted: null });
    this.#store = store;
    this.#connect = connect;
    this.#isUntouched = isUntouched;
    this.#last = store.state.document;
    if (mark)
      this.#agreed.set(mark.id, {
        revision: mark.revision,
        text: null,
        document: mark.unsaved ? null : this.#last,
        ...(mark.writing !== undefined && { writing: mark.writing }),
      });
    store.subscribe(() => this.#changed());
  }

  /** Where the open document stands in the record, for the tab's shelf. */
  get mark(): JobMark | null {
    return this.#agreed.mark(this.#store.state.document);
  }

  /** Opens the record, once, and brings what is open and what is kept together. */
  start(page: Window = window): Promise<void> {
    this.#started ??= this.#start(page);
    return this.#started;
  }

  async #start(page: Window): Promise<void> {
    page.addEventListener("pagehide", () => void this.flush());
    page.document.addEventListener("visibilitychange", () => {
      if (page.document.visibilityState === "hidden") void this.flush();
    });
    this.#hearPromise(globalThis.navigator?.storage?.persisted?.());
    await this.#open(null);
  }

  /**
   * Opens the record; where the browser cannot write now, again and again until it can.
   *
   * @param lost the job that was open when the record went away
   */
  async #open(lost: Row | null): Promise<void> {
    try {
      const [record] = await Promise.all([this.#connect(), this.#fetchSync()]);
      this.#set({ record, refusal: null, trouble: null });
      void record.lost().then((loss) => this.#lose(loss));
      const hasOwn = lost !== null && (await this.#keepAgain(lost));
      sayRecovered(this.#store, record.recovered, hasOwn);
    } catch (error) {
      const isFirst = this.value.refusal === null || this.value.refusal === LOST;
      this.#set({ record: null, refusal: troubleText(error) });
      if (!["full", "unwritable"].includes(troubleOf(error))) return;
      const { document } = this.#store.state;
      if (isFirst && (document.job !== undefined || !this.#isUntouched(document)))
        sayTrouble(this.#store, troubleText(error), lost);
      setTimeout(() => void this.#open(lost), RETRY_MS);
      return;
    }
    await this.#attend();
  }

  async #fetchSync(): Promise<void> {
    const { JobSync } = await import("./jobSync.ts");
    this.#sync ??= new JobSync(this.#store, this.#agreed, {
      // told also where nothing else has changed: the shelf notes that the record has it
      kept: () => this.change({ ...this.value, trouble: null }),
      announced: () => this.announce(),
      agreed: (row) => this.change({ ...this.value, row }),
      keep: () => void this.keep(),
      open: (id) => void this.open(id),
    });
  }

  async #keepAgain(lost: Row): Promise<boolean> {
    let isBack = false;
    await this.#inTurn(async (record) => {
      isBack = await this.#sync.keepAgain(record, lost);
    });
    return isBack;
  }

  /** The database was taken away: by a later version of the page, which is said, or by the browser, and what can be is brought back. */
  #lose(loss: Loss): void {
    this.#unwatch?.();
    this.#unwatch = null;
    const { row } = this.value;
    this.#set({ record: null, refusal: loss === "later" ? LATER_HERE : LOST });
    if (loss === "later") sayLater(this.#store, () => location.reload());
    else void this.#open(row);
  }

  /** Keeps what is not kept yet, now. */
  flush(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const { document } = this.#store.state;
    return this.#inTurn((record) => this.#sync.save(record, document));
  }

  /** Keeps what is open as a job of its own. The answer: whether it is kept. */
  keep(texts: Partial<JobTexts> = {}): Promise<boolean> {
    return this.with(async (record) => {
      const { document } = this.#store.state;
      // asked for twice
      if (document.job !== undefined) return;
      await this.#sync.keepAs(record, { ...textsOf(document), ...texts });
      this.#askToPersist();
    });
  }

  /** Makes a new job of a document and opens it; what was open is kept first. */
  begin(document: Document): Promise<boolean> {
    return this.#leaveFor(async (record) => {
      const { id } = await record.add(textsOf(document), writeDocument(document));
      this.#askToPersist();
      return id;
    });
  }

  /** Once a visit: some browsers ask the person, who need not answer now. */
  #askToPersist(): void {
    if (this.#hasAskedToPersist || this.value.isPersisted) return;
    this.#hasAskedToPersist = true;
    this.#hearPromise(globalThis.navigator?.storage?.persist?.());
  }

  #hearPromise(answer: Promise<boolean> | undefined): void {
    answer?.then(
      (isPersisted) => this.#set({ isPersisted }),
      () => {},
    );
  }

  /** Opens another job; what was open is kept first. The answer: whether it is open now. */
  open(id: string): Promise<boolean> {
    return this.#leaveFor(async () => id);
  }

  /** Does something with the record; where it will not be done, that is said. The answer: whether it is done. */
  async with(act: (record: JobRecord) => Promise<unknown>): Promise<boolean> {
    let isDone = false;
    await this.#inTurn(async (record) => {
      await act(record);
      isDone = true;
    }, true);
    return isDone;
  }

  async #leaveFor(next: (record: JobRecord) => Promise<string>): Promise<boolean> {
    await this.flush();
    let isOpen = false;
    await this.#inTurn(async (record) => {
      const { document } = this.#store.state;
      // what the record would not take is not left behind
      if (this.#agreed.isUnsaved(document)) await this.#sync.save(record, document);
      else if (document.job === undefined && !this.#isUntouched(document)) {
        await this.#sync.keepAs(record, textsOf(document));
        this.#askToPersist();
      }
      const id = await next(record);
      isOpen = document.job === id || (await this.#sync.show(record, id));
    }, true);
    return isOpen;
  }

  #changed(): void {
    const { document } = this.#store.state;
    const last = this.#last;
    if (document === last) return;
    this.#last = document;
    if (document.job !== last.job) {
      void this.#inTurn((record) => this.#sync.save(record, last));
      void this.#attend();
    }
    if (document.job !== undefined) this.#timer ??= setTimeout(() => void this.flush(), DELAY_MS);
  }

  /** The record's news of the job that is open from now on; first how the two stand. */
  #attend(): Promise<void> {
    this.#unwatch?.();
    this.#unwatch = null;
    const { job } = this.#store.state.document;
    const { record } = this.value;
    if (this.value.row?.id !== job) this.#set({ row: null, trouble: null });
    if (!record || job === undefined) return this.#work;
    const done = this.#inTurn(() => this.#sync.agree(record, job));
    this.#unwatch = record.watchRow(job, (row) => {
      void this.#inTurn(async () => {
        if (this.#store.state.document.job !== job) return;
        this.#set({ row: row ?? null });
        const agreed = this.#agreed.of(this.#store.state.document);
        if (agreed && !(row && sameRevision(row.revision, agreed.revision)))
          await this.#sync.agree(record, job);
      });
    });
    return done;
  }

  /**
   * Does it after what is under way.
   *
   * @param isAsked by the person, who is told of every failure; of what goes on by itself one is told once
   */
  #inTurn(act: (record: JobRecord) => Promise<void>, isAsked = false): Promise<void> {
    this.#work = this.#work.then(async () => {
      const { record } = this.value;
      if (!record) return;
      try {
        await act(record);
      } catch (error) {
        this.#tell(troubleText(error), isAsked);
      }
    });
    return this.#work;
  }

  #tell(trouble: string, isAsked: boolean): void {
    const { document } = this.#store.state;
    if (document.job !== undefined && !this.#agreed.isUnsaved(document)) {
      this.#store.say("error", `${trouble}. Nothing was changed.`);
      return;
    }
    const isNew = this.value.trouble !== trouble;
    this.#set({ trouble });
    if (isNew || isAsked) sayTrouble(this.#store, trouble, this.value.row);
  }

  #set(part: Partial<OpenJobState>): void {
    const news = { ...this.value, ...part };
    const isNew = Object.entries(part).some(
      ([name, value]) => this.value[name as keyof OpenJobState] !== value,
    );
    if (isNew) this.change(news);
  }
}
