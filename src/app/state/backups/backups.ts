/**
 * The backups made here: when the last one was, and the one that is kept up to date by itself in a folder the person has
 * named. The browser keeps the folder's handle and may ask for leave anew at every visit; where there is no folder, the
 * person is reminded now and then.
 */

import { unlessGivenUp } from "../keeping/fileDialog.ts";
import { Observable } from "../observable.ts";
import type { Row } from "../record/database.ts";
import type { JobRecord } from "../record/jobRecord.ts";
import type { OpenJob } from "../record/openJob.ts";
import { isSound } from "../record/soundRow.ts";
import { troubleText } from "../record/trouble.ts";
import type { Store } from "../store.ts";
import { type Folder, folderFileNames, newestIn, writeInTurn } from "./folderFiles.ts";
import { type FolderTrouble, folderTrouble, folderTroubleText } from "./folderTrouble.ts";
import { reminderOf, reminderText } from "./reminder.ts";

export interface BackupsState {
  /** Whether this browser lets a page write to a folder that the person names. */
  readonly canNameFolder: boolean;
  /** The folder's name; null: none is named. */
  readonly folder: string | null;
  /** The two files in it that take turns. */
  readonly files: readonly string[];
  /** When the newest in the folder was written, ISO 8601. */
  readonly written: string | null;
  /** Something has changed since. */
  readonly isBehind: boolean;
  /** Why the newest is not in the folder. */
  readonly trouble: FolderTrouble | null;
  /** When the last one outside this folder was made, ISO 8601. */
  readonly made: string | null;
}

/** What is remembered of backups, each under its key. */
export type Noted =
  | { readonly key: "folder"; readonly folder: Folder }
  | { readonly key: "written"; readonly at: string; readonly tag: string }
  | { readonly key: "made" | "reminded"; readonly at: string };

export interface BackupsOptions {
  readonly notes: {
    all(): Promise<readonly Noted[]>;
    put(noted: Noted): Promise<void>;
    delete(key: Noted["key"]): Promise<void>;
  };
  /** Lets the person name a folder; null where the browser has no such dialog. */
  readonly pick: (() => Promise<Folder>) | null;
  /** Does it while no other tab does. */
  readonly alone: (act: () => Promise<void>) => Promise<void>;
  /** Shows where backups are made. */
  readonly showJobs: () => void;
  /** After the last change, ms. */
  readonly restMs?: number;
}

const REST_MS = 3000;
/** After the first change, however many follow. */
const LONGEST_REST_MS = 30_000;
/** Of a folder that could not be written to. */
const RETRY_MS = 60_000;
/** So many jobs that a hand on the page does not wait for them. */
const AT_ONCE = 10;

export class Backups extends Observable<BackupsState> {
  readonly #store: Store;
  readonly #options: BackupsOptions;
  readonly #restMs: number;
  #record: JobRecord | null = null;
  #unwatch: () => void = () => {};
  #noted: ReadonlyMap<Noted["key"], Noted> = new Map();
  #timer: ReturnType<typeof setTimeout> | undefined;
  #firstChange: number | null = null;
  /** One thing after the other. */
  #work: Promise<void> = Promise.resolve();
  /** What the person was told of already. */
  #told: FolderTrouble | null = null;
  #isReminded = false;

  constructor(store: Store, options: BackupsOptions) {
    super({
      canNameFolder: options.pick !== null,
      folder: null,
      files: [],
      written: null,
      isBehind: false,
      trouble: null,
      made: null,
    });
    this.#store = store;
    this.#options = options;
    this.#restMs = options.restMs ?? REST_MS;
  }

  /** Follows the record, whenever it is open. */
  start(openJob: OpenJob, page: Window = window): void {
    const follow = () => {
      const { record } = openJob.value;
      if (record === this.#record) return;
      this.#unwatch();
      this.#record = record;
      this.#unwatch = record?.watchChanged(() => this.#soon()) ?? (() => {});
      void this.look();
    };
    openJob.subscribe(follow);
    follow();
    page.document.addEventListener("visibilitychange", () => {
      if (page.document.visibilityState === "hidden" && this.#timer !== undefined) void this.look();
    });
  }

  /** Brings the folder up to date now; resolves when it is, or will not be. */
  look(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#firstChange = null;
    this.#work = this.#work.then(() => this.#bring());
    return this.#work;
  }

  /** The person names a folder, at a click. */
  async nameFolder(): Promise<void> {
    const folder = await unlessGivenUp(this.#options.pick!, this.#store);
    if (!folder) return;
    try {
      await this.#options.notes.delete("written");
      await this.#options.notes.put({ key: "folder", folder });
    } catch (error) {
      this.#store.say("error", `The folder cannot be remembered. ${troubleText(error)}.`);
      return;
    }
    this.#told = null;
    await this.look();
  }

  /** The browser asks the person, at a click. */
  async allow(): Promise<void> {
    // asked before anything is awaited: the click counts only so long
    await this.#folder?.requestPermission?.({ mode: "readwrite" }).catch(() => {});
    await this.look();
  }

  /** Nothing more is written to the folder; what is there stays. */
  async stop(): Promise<void> {
    const at = this.#at("written");
    if (at !== null && at > (this.#at("made") ?? "")) await this.#options.notes.put({ key: "made", at });
    await this.#options.notes.delete("folder");
    await this.#options.notes.delete("written");
    await this.look();
  }

  /** One was made by hand. */
  async noteMade(at: string): Promise<void> {
    await this.#options.notes.put({ key: "made", at }).catch(() => {});
    this.change({ ...this.value, made: at });
  }

  get #folder(): Folder | null {
    const noted = this.#noted.get("folder");
    return noted?.key === "folder" ? noted.folder : null;
  }

  #at(key: "written" | "made" | "reminded"): string | null {
    const noted = this.#noted.get(key);
    return noted && "at" in noted ? noted.at : null;
  }

  #soon(): void {
    if (!this.#folder) return;
    const now = performance.now();
    this.#firstChange ??= now;
    clearTimeout(this.#timer);
    const restMs = Math.min(this.#restMs, Math.max(0, this.#firstChange + LONGEST_REST_MS - now));
    this.#timer = setTimeout(() => void this.look(), restMs);
    this.change({ ...this.value, isBehind: true });
  }

  async #bring(): Promise<void> {
    const record = this.#record;
    try {
      await this.#readNotes();
      if (!record) return;
      const folder = this.#folder;
      if (!folder) return await this.#remind(record);
      this.change({ ...this.value, files: folderFileNames(record.browser) });
      if (await this.#isUpToDate(record, folder)) return this.#allIsWell();
      this.change({ ...this.value, isBehind: true });
      if (!(await isAllowed(folder))) return this.#complain("asks", folder);
      await this.#options.alone(() => this.#write(record, folder));
      this.#allIsWell();
    } catch (error) {
      // a record that fails says so itself
      if (this.#folder && !(error instanceof RecordFailure))
        this.#complain(folderTrouble(error), this.#folder);
    }
  }

  async #readNotes(): Promise<void> {
    const all = await this.#options.notes.all();
    this.#noted = new Map(all.map((one) => [one.key, one]));
    const folder = this.#folder;
    const written = this.#at("written");
    this.change({ ...this.value, folder: folder?.name ?? null, written, made: this.#at("made") });
    if (!folder) this.change({ ...this.value, isBehind: false, trouble: null });
  }

  async #isUpToDate(record: JobRecord, folder: Folder): Promise<boolean> {
    const rows = await fromRecord(record.rows());
    const jobs = rows.filter((row) => isSound(row) && row.deleted === null);
    // a backup of nothing takes no other's place
    if (jobs.length === 0) return true;
    const written = this.#noted.get("written");
    if (written?.key !== "written" || written.tag !== (await tagOf(jobs))) return false;
    // no leave is asked for what has not changed
    if (!(await isAllowed(folder))) return true;
    return (await newestIn(folder, folderFileNames(record.browser))) === written.at;
  }

  async #write(record: JobRecord, folder: Folder): Promise<void> {
    // another tab may just have done it
    await this.#readNotes();
    if (this.#folder === null || (await this.#isUpToDate(record, folder))) return;
    const { backupTextSteps } = await import("../../../record/backup.ts");
    const at = new Date().toISOString();
    const jobs = await fromRecord(record.all());
    const tag = await tagOf(jobs);
    const steps = backupTextSteps(jobs, at);
    let step = steps.next();
    for (let i = 1; !step.done; i++, step = steps.next())
      if (i % AT_ONCE === 0) await new Promise((rested) => setTimeout(rested));
    await writeInTurn(folder, folderFileNames(record.browser), step.value);
    await this.#options.notes.put({ key: "written", at, tag });
    await this.#readNotes();
  }

  #allIsWell(): void {
    this.#told = null;
    this.change({ ...this.value, isBehind: false, trouble: null });
  }

  #complain(trouble: FolderTrouble, folder: Folder): void {
    this.change({ ...this.value, isBehind: true, trouble });
    if (trouble !== "asks") this.#timer ??= setTimeout(() => void this.look(), RETRY_MS);
    if (trouble === this.#told) return;
    this.#told = trouble;
    const offer =
      trouble === "asks"
        ? { label: "Allow", accept: () => void this.allow() }
        : { label: "Show backups", accept: this.#options.showJobs };
    this.#store.say("error", folderTroubleText(trouble, folder.name), offer);
  }

  /** Quietly: never over another message, once a visit, and not again for a week. */
  async #remind(record: JobRecord): Promise<void> {
    if (this.#isReminded || this.#store.state.message) return;
    this.#isReminded = true;
    const made = this.#at("made");
    const now = Date.now();
    const reminder = reminderOf(await fromRecord(record.rows()), made, this.#at("reminded"), now);
    if (!reminder) return;
    this.#store.say("note", reminderText(reminder, made), {
      label: "Make a backup",
      accept: this.#options.showJobs,
    });
    await this.#options.notes.put({ key: "reminded", at: new Date(now).toISOString() });
  }
}

/** It was not the folder that failed. */
class RecordFailure extends Error {}

const fromRecord = <T>(answer: Promise<T>): Promise<T> =>
  answer.catch((cause) => {
    throw new RecordFailure("the record gave no answer", { cause });
  });

async function isAllowed(folder: Folder): Promise<boolean> {
  return ((await folder.queryPermission?.({ mode: "readwrite" })) ?? "granted") === "granted";
}

/** Tells one state of all jobs from any other. */
async function tagOf(jobs: readonly Pick<Row, "id" | "revision" | "changed">[]): Promise<string> {
  const { fingerprint } = await import("../../../record/canonical.ts");
  return fingerprint(Object.fromEntries(jobs.map(({ id, revision, changed }) => [id, [revision, changed]])));
}
