/**
 * Keeps the second copy up to date: what this tab has open, and every job of the record, outside the database that the
 * browser may throw away as a whole. And says, while there is still some, when the disk runs out of room.
 */
import type { SecondCopy } from "../../../../workers/record/secondCopy.ts";
import { canonicalText } from "../../../record/canonical.ts";
import type { Connection, Methods } from "../../work/connection.ts";
import type { Row } from "../record/database.ts";
import type { JobRecord } from "../record/jobRecord.ts";
import type { OpenJob } from "../record/openJob.ts";
import { sayRecovered } from "../record/openJobMessages.ts";
import type { Store } from "../store.ts";
import type { Place } from "./autosave.ts";
import type { Working } from "./workingStore.ts";

/** So few that a hand on the page does not wait for them. */
const COPIED_AT_ONCE = 20;
/** Of what tabs had open, in the copy. */
const MOST_WORK = 10;
/** Between two looks at the room that is left. */
const ROOM_MS = 20_000;
/** Of the browser's allowance, before it is said. */
const NEARLY_ALL = 0.9;

export class SecondCopyKeeper implements Place {
  readonly #store: Store;
  readonly #connect: () => Connection<SecondCopy>;
  #copy: Methods<SecondCopy> | null = null;
  /** Resolves when this tab writes the jobs; rejects where the browser has no such files. */
  #leading: Promise<void> | null = null;
  #record: JobRecord | null = null;
  #unwatch: () => void = () => {};
  /** One thing after the other. */
  #work: Promise<void> = Promise.resolve();
  #lookedAt = Number.NEGATIVE_INFINITY;
  #isShort = false;

  constructor(store: Store, connect: () => Connection<SecondCopy>) {
    this.#store = store;
    this.#connect = connect;
  }

  /** Begins to copy the record, whenever it is open. */
  start(openJob: OpenJob): void {
    this.#open();
    const follow = () => {
      if (openJob.value.record !== this.#record) this.#follow(openJob.value.record);
    };
    openJob.subscribe(follow);
    follow();
    void this.#lookAtRoom();
  }

  /** What this tab has open. */
  async put({ key, stamp, text }: Working): Promise<void> {
    const isKept = await this.#open().work({ key, value: { stamp, text } });
    void this.#lookAtRoom();
    if (isKept === false) throw new DOMException("not on the disk", "QuotaExceededError");
  }

  #open(): Methods<SecondCopy> {
    if (this.#copy) return this.#copy;
    const connection = this.#connect();
    this.#copy = connection.model;
    this.#leading = Promise.race([this.#copy.lead(), connection.died]);
    // a browser without such files goes on without a second copy
    this.#leading.then(
      () => this.#copy?.prune(MOST_WORK),
      () => {},
    );
    return this.#copy;
  }

  #follow(record: JobRecord | null): void {
    this.#record = record;
    this.#unwatch();
    this.#unwatch = () => {};
    if (!record) return;
    this.#leading?.then(
      () => {
        if (this.#record !== record) return;
        this.#unwatch = record.watchChanged((ids) => this.#inTurn(record, ids));
        this.#inTurn(record, null);
      },
      () => {},
    );
  }

  #inTurn(record: JobRecord, ids: readonly string[] | null): void {
    this.#work = this.#work.then(async () => {
      if (this.#record !== record) return;
      try {
        if (ids) await this.#copyJobs(record, ids);
        else await this.#compare(record);
      } catch {
        // a record that fails says so itself; the copy catches up when it is open again
      }
    });
  }

  /** Copies what the copy has not got, and puts back what the record has lost: what was deleted is marked so in both. */
  async #compare(record: JobRecord): Promise<void> {
    const copy = this.#open();
    const [rows, heads] = await Promise.all([record.rows(), copy.heads()]);
    const kept = new Set(rows.map(({ id }) => id));
    const missing = [...heads].filter(([id]) => !kept.has(id));
    const deleted = missing.filter(([, head]) => head.deleted !== null).map(([id]) => id);
    const lost = missing.filter(([, head]) => head.deleted === null).map(([id]) => id);
    if (deleted.length > 0) await copy.jobs(deleted.map((key) => ({ key })));
    if (lost.length > 0) {
      const { jobsCopied } = await import("../../../record/copied.ts");
      const jobs = jobsCopied(await copy.copied(lost), new Date().toISOString());
      sayRecovered(this.#store, await record.putBack(jobs), false);
    }
    const stale = rows.filter((row) => heads.get(row.id)?.tag !== tagOf(row));
    await this.#copyJobs(
      record,
      stale.map(({ id }) => id),
    );
  }

  async #copyJobs(record: JobRecord, ids: readonly string[]): Promise<void> {
    for (let from = 0; from < ids.length; from += COPIED_AT_ONCE) {
      const some = ids.slice(from, from + COPIED_AT_ONCE);
      const states = await record.states(some);
      const entries = states.flatMap((state, i) =>
        state
          ? [{ key: some[i], value: { ...state, tag: tagOf({ ...state.job, deleted: state.deleted }) } }]
          : [],
      );
      if (!(await this.#open().jobs(entries))) this.#lookedAt = Number.NEGATIVE_INFINITY;
    }
    await this.#lookAtRoom();
  }

  async #lookAtRoom(): Promise<void> {
    const now = performance.now();
    if (now - this.#lookedAt < ROOM_MS) return;
    this.#lookedAt = now;
    const wasShort = this.#isShort;
    const [hasRoom, { usage = 0, quota = 0 }] = await Promise.all([
      this.#open().hasRoom(),
      // not in every browser
      navigator.storage?.estimate?.() ?? {},
    ]);
    this.#isShort = !hasRoom || usage > NEARLY_ALL * quota;
    if (this.#isShort && !wasShort) this.#store.say("error", NEARLY_FULL);
  }
}

const NEARLY_FULL =
  "There is hardly any room left where the browser keeps your work. Make room on the disk, and make a backup under Jobs.";

/** Tells one state of a job from any other. */
const tagOf = ({ revision, deleted }: Pick<Row, "revision" | "deleted">): string =>
  canonicalText([revision, deleted]);
