/**
 * What each tab works on, in a small database of its own that is written through to the disk at every change: what the
 * browser's shelves take reaches the disk up to five seconds later. Never of another version, so that an old page and a new
 * one share it; without a library, because it is read before the first drawing.
 */

/** What one tab had open, as text. */
export interface Working {
  /** Of the tab, anew at every load. */
  readonly key: string;
  /** Milliseconds since 1970, and always later than any that was there: the largest is the newest. */
  readonly stamp: number;
  readonly text: string;
}

const DATABASE = "annulus-working";
const STORE = "kept";
/** More tabs than anybody closes and wants back. */
const MOST_KEPT = 20;

export class WorkingStore {
  readonly #factory: IDBFactory | undefined;
  #opening: Promise<IDBDatabase> | null = null;
  /** Told when the browser has thrown away or closed what was kept. */
  onLost: () => void = () => {};

  constructor(factory: IDBFactory | undefined = globalThis.indexedDB) {
    this.#factory = factory;
  }

  /** What every tab kept last. */
  async all(): Promise<Working[]> {
    return this.#inStore("readonly", (store) => store.getAll());
  }

  /** Resolves when it is on the disk. */
  async put(working: Working): Promise<void> {
    await this.#inStore("readwrite", (store) => store.put(working));
  }

  /** Forgets what tabs had open long ago. */
  async prune(): Promise<void> {
    const old = (await this.all()).sort((a, b) => b.stamp - a.stamp).slice(MOST_KEPT);
    for (const { key } of old) await this.#inStore("readwrite", (store) => store.delete(key));
  }

  async close(): Promise<void> {
    (await this.#opening?.catch(() => null))?.close();
    this.#opening = null;
  }

  async #inStore<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
    const database = await this.#open();
    try {
      const transaction = database.transaction(STORE, mode, { durability: "strict" });
      const request = ask(transaction.objectStore(STORE));
      await ended(transaction);
      return request.result;
    } catch (error) {
      // a connection that failed once goes on failing
      database.close();
      this.#opening = null;
      throw error;
    }
  }

  #open(): Promise<IDBDatabase> {
    this.#opening ??= new Promise<IDBDatabase>((resolve, reject) => {
      if (!this.#factory) throw new DOMException("no database here", "NotFoundError");
      const request = this.#factory.open(DATABASE, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: "key" });
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const { result: database } = request;
        const lose = () => {
          database.close();
          this.#opening = null;
          // the browser is still at it
          setTimeout(() => this.onLost());
        };
        database.onversionchange = lose;
        database.onclose = lose;
        resolve(database);
      };
    });
    this.#opening.catch(() => {
      this.#opening = null;
    });
    return this.#opening;
  }
}

const ended = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new DOMException("given up", "AbortError"));
  });
