/**
 * Keeps a second copy in files of the page's own, outside the browser's database, written through to the disk at every
 * change. Files are held by one tab at a time, whose worker writes for all; the others send it theirs.
 */
import type { CopiedHead, CopiedJob } from "../../src/record/copied.ts";
import { type Entry, generationOf, linesOf, readCopy, readGeneration } from "../../src/record/journal.ts";

/** Of the two copies: `work`, what tabs have open, small and read at every start; `jobs`, the record. */
export type CopyName = "work" | "jobs";

/** What a file can be asked for by the worker that holds it. */
export interface HeldFile {
  getSize(): number;
  read(into: Uint8Array<ArrayBuffer>, options: { readonly at: number }): number;
  write(from: Uint8Array<ArrayBuffer>, options: { readonly at: number }): number;
  flush(): void;
}

/** The same as the browser hands it out; the types of a page do not have what only a worker can do. */
interface OwnFile extends HeldFile {
  truncate(size: number): void;
  close(): void;
}

/** So much is kept free behind the end: what is written when the disk is full goes there. */
const RESERVE_BYTES = 256 * 1024;
/** A file is written anew when it has grown to this many times what it began with. */
const LONG = 4;
const LEAST_LONG_BYTES = 1024 * 1024;
/** The room that is tried: what is warned about while there is still some. */
const TRIED_BYTES = 4 * 1024 * 1024;

/** One copy: two files, of which one goes on. */
export class TwoFiles {
  readonly #files: readonly [HeldFile, HeldFile];
  readonly #held: Map<string, unknown>;
  #current: 0 | 1;
  #generation = 0;
  #end = 0;
  /** Where it ended when it was written anew. */
  #begun = 0;
  /** Something is not on the disk that should be. */
  #isBehind = false;

  constructor(files: readonly [HeldFile, HeldFile]) {
    this.#files = files;
    const bytes = [bytesOf(files[0]), bytesOf(files[1])] as const;
    const { held, current, damaged } = readCopy(bytes);
    this.#held = new Map(held);
    this.#current = current ?? 1;
    this.#generation = Math.max(...bytes.map((one) => readGeneration(one).generation));
    this.#end = readGeneration(bytes[this.#current]).end;
    if (current === null || damaged > 0) this.#isBehind = !this.#renew();
  }

  get held(): ReadonlyMap<string, unknown> {
    return this.#held;
  }

  /** Whether all of it is on the disk now. */
  put(entries: readonly Entry[]): boolean {
    for (const { key, value } of entries) {
      if (value === undefined) this.#held.delete(key);
      else this.#held.set(key, value);
    }
    const isOn = this.#goOn(entries);
    const isLong = this.#end > Math.max(LEAST_LONG_BYTES, LONG * this.#begun);
    this.#isBehind ||= !isOn;
    if ((isLong || this.#isBehind) && this.#renew()) this.#isBehind = false;
    return !this.#isBehind;
  }

  #goOn(entries: readonly Entry[]): boolean {
    const file = this.#files[this.#current];
    const lines = linesOf(this.#generation, entries);
    if (!written(file, lines, this.#end)) return false;
    this.#end += lines.length;
    reserve(file, this.#end);
    return true;
  }

  /** All that counts into the other file. */
  #renew(): boolean {
    const next = this.#current === 0 ? 1 : 0;
    const all = generationOf(
      this.#generation + 1,
      [...this.#held].map(([key, value]) => ({ key, value })),
    );
    if (!written(this.#files[next], all, 0)) return false;
    this.#current = next;
    this.#generation++;
    this.#begun = this.#end = all.length;
    reserve(this.#files[next], this.#end);
    return true;
  }
}

function bytesOf(file: HeldFile): Uint8Array {
  const bytes = new Uint8Array(file.getSize());
  file.read(bytes, { at: 0 });
  return bytes;
}

/** Whether all of it went to the disk: a full one takes a part without a word. */
function written(file: HeldFile, bytes: Uint8Array<ArrayBuffer>, at: number): boolean {
  try {
    const isWhole = file.write(bytes, { at }) === bytes.length;
    file.flush();
    return isWhole;
  } catch {
    return false;
  }
}

/** Takes room behind the end while there is some. */
function reserve(file: HeldFile, end: number): void {
  const size = file.getSize();
  if (size - end < RESERVE_BYTES / 2) written(file, new Uint8Array(end + RESERVE_BYTES - size), size);
}

export class SecondCopy {
  #copies: Readonly<Record<CopyName, TwoFiles>> | null = null;
  readonly #others = new BroadcastChannel("annulus-second-copy");
  /** This tab's own, for when it comes to write for all. */
  #own: Entry | null = null;

  /** Waits until no other tab holds the files, then holds them as long as this tab lives; throws where there are none. */
  async lead(): Promise<void> {
    await new Promise<void>((resolve, reject) => {
      navigator.locks
        .request("annulus-second-copy", async () => {
          await this.#open();
          resolve();
          await new Promise(() => {});
        })
        .catch(reject);
    });
    this.#others.onmessage = ({ data }: MessageEvent<Entry>) => this.#copies?.work.put([data]);
    if (this.#own) this.#copies?.work.put([this.#own]);
  }

  /** What this tab has open. Whether it is on the disk; null: another tab has been sent it. */
  async work(entry: Entry): Promise<boolean | null> {
    this.#own = entry;
    if (this.#copies) return this.#copies.work.put([entry]);
    this.#others.postMessage(entry);
    return null;
  }

  /** Whether all of it is on the disk. */
  async jobs(entries: readonly Entry[]): Promise<boolean> {
    return this.#copies?.jobs.put(entries) ?? false;
  }

  /** Of every job that the copy has: as which state of it, and when it was deleted. */
  async heads(): Promise<ReadonlyMap<string, CopiedHead>> {
    const held = (this.#copies?.jobs.held ?? new Map()) as ReadonlyMap<string, CopiedJob>;
    return new Map([...held].map(([id, { tag, deleted }]) => [id, { tag, deleted }]));
  }

  async copied(ids: readonly string[]): Promise<CopiedJob[]> {
    const held = (this.#copies?.jobs.held ?? new Map()) as ReadonlyMap<string, CopiedJob>;
    return ids.flatMap((id) => held.get(id) ?? []);
  }

  /** Forgets what tabs had open before all but the newest. */
  async prune(most: number): Promise<void> {
    const work = this.#copies?.work;
    const stamp = (value: unknown) => (value as { stamp?: number }).stamp ?? 0;
    const old = [...(work?.held ?? [])].sort(([, a], [, b]) => stamp(b) - stamp(a)).slice(most);
    if (old.length > 0) work?.put(old.map(([key]) => ({ key })));
  }

  /** Whether the disk has room for some more: the browser's own estimate does not tell of a full disk. */
  async hasRoom(): Promise<boolean> {
    let room: OwnFile;
    try {
      room = await fileOf(await navigator.storage.getDirectory(), "room");
    } catch {
      // another tab is at it, or there are no such files
      return true;
    }
    const isThere = written(room, new Uint8Array(TRIED_BYTES), 0);
    room.truncate(0);
    room.close();
    return isThere;
  }

  async #open(): Promise<void> {
    const folder = await navigator.storage.getDirectory();
    const open = (name: string) => fileOf(folder, name);
    this.#copies = {
      work: new TwoFiles([await open("work-a"), await open("work-b")]),
      jobs: new TwoFiles([await open("jobs-a"), await open("jobs-b")]),
    };
  }
}

async function fileOf(folder: FileSystemDirectoryHandle, name: string): Promise<OwnFile> {
  const file = await folder.getFileHandle(name, { create: true });
  return (file as unknown as { createSyncAccessHandle(): Promise<OwnFile> }).createSyncAccessHandle();
}
