/**
 * Answers that took the workers long, in a database of their own, so that a job that is opened again has them at once. They
 * belong to the version of the page that worked them out: another never reads them. Nothing of a person's is in it that the
 * job has not, and losing it costs a wait.
 */
import { OwnDatabase } from "./ownDatabase.ts";

interface KeptAnswer {
  readonly key: string;
  readonly version: string;
  /** Milliseconds since 1970. */
  readonly stamp: number;
  readonly answer: object;
}

/** A database that does not answer must not hold up the worker, ms. */
const PATIENCE_MS = 300;
/** A few gaps of a few jobs; some kB each. */
const MOST_KEPT = 40;

export class AnswerStore {
  readonly #version: string;
  readonly #database: OwnDatabase<KeptAnswer>;

  /** @param version of all that decides an answer */
  constructor(version: string, factory?: IDBFactory) {
    this.#version = version;
    this.#database = new OwnDatabase("annulus-answers", factory);
  }

  /** What was kept under this name by this version; null where there is nothing, or no database. */
  async find(key: string): Promise<object | null> {
    const late = new Promise<undefined>((done) => setTimeout(() => done(undefined), PATIENCE_MS));
    const kept = await Promise.race([this.#database.get(key).catch(() => undefined), late]);
    return kept?.version === this.#version ? kept.answer : null;
  }

  /** Keeps an answer, and forgets other versions' and the oldest; where there is no room, nothing is kept. */
  async keep(key: string, answer: object): Promise<void> {
    try {
      await this.#database.put({ key, version: this.#version, stamp: Date.now(), answer });
      const all = await this.#database.all();
      const own = all.filter(({ version }) => version === this.#version);
      const old = own.sort((a, b) => b.stamp - a.stamp).slice(MOST_KEPT);
      const others = all.filter(({ version }) => version !== this.#version);
      for (const { key: gone } of [...old, ...others]) await this.#database.delete(gone);
    } catch {
      // it will be worked out again
    }
  }

  close(): Promise<void> {
    return this.#database.close();
  }
}
