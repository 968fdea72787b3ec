/**
 * A small database of one store, written through to the disk at every change. Never of another version, so that an old page
 * and a new one share it; without a library, because it is read before that has come.
 */

const STORE = "kept";

export class OwnDatabase<Kept extends { readonly key: string }> {
  readonly #name: string;
  readonly #factory: IDBFactory | undefined;
  #opening: Promise<IDBDatabase> | null = null;
  /** Told when the browser has thrown away or closed what was kept. */
  onLost: () => void = () => {};

  constructor(name: string, factory: IDBFactory | undefined = globalThis.indexedDB) {
    this.#name = name;
    this.#factory = factory;
  }

  async all(): Promise<Kept[]> {
    return this.#inStore("readonly", (store) => store.getAll());
  }

  async get(key: string): Promise<Kept | undefined> {
    return this.#inStore("readonly", (store) => store.get(key));
  }

  /** Resolves when it is on the disk. */
  async put(kept: Kept): Promise<void> {
    await this.#inStore("readwrite", (store) => store.put(kept));
  }

  async delete(key: string): Promise<void> {
    await this.#inStore("readwrite", (store) => store.delete(key));
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
      const request = this.#factory.open(this.#name, 1);
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
