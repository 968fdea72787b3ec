/**
 * What each tab works on, in a small database of its own that is written through to the disk at every change: what the
 * browser's shelves take reaches the disk up to five seconds later.
 */
import { OwnDatabase } from "./ownDatabase.ts";

/** What one tab had open, as text. */
export interface Working {
  /** Of the tab, anew at every load. */
  readonly key: string;
  /** Milliseconds since 1970, and always later than any that was there: the largest is the newest. */
  readonly stamp: number;
  readonly text: string;
}

/** More tabs than anybody closes and wants back. */
const MOST_KEPT = 20;

export class WorkingStore extends OwnDatabase<Working> {
  constructor(factory?: IDBFactory) {
    super("annulus-working", factory);
  }

  /** Forgets what tabs had open long ago. */
  async prune(): Promise<void> {
    const old = (await this.all()).sort((a, b) => b.stamp - a.stamp).slice(MOST_KEPT);
    for (const { key } of old) await this.delete(key);
  }
}
