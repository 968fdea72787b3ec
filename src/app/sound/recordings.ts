/** Recordings of the turns, kept in this browser only: too large for a link or a file, and nobody else's business. */
import Dexie, { type Table } from "dexie";

interface Kept {
  readonly trial: string;
  readonly code: string;
  readonly sound: Blob;
}

export class Recordings {
  readonly #database = new Dexie("annulus-recordings");
  readonly #kept: Table<Kept, [trial: string, code: string]>;

  constructor() {
    this.#database.version(1).stores({ kept: "[trial+code], trial" });
    this.#kept = this.#database.table("kept");
  }

  /** Takes the place of an earlier one of the same turn. */
  async keep(trial: string, code: string, sound: Blob): Promise<void> {
    await this.#kept.put({ trial, code, sound });
  }

  /** By code. */
  async of(trial: string): Promise<ReadonlyMap<string, Blob>> {
    const kept = await this.#kept.where("trial").equals(trial).toArray();
    return new Map(kept.map(({ code, sound }) => [code, sound]));
  }

  async remove(trial: string, code: string): Promise<void> {
    await this.#kept.delete([trial, code]);
  }

  async removeAll(trial: string): Promise<void> {
    await this.#kept.where("trial").equals(trial).delete();
  }

  close(): void {
    this.#database.close();
  }
}
