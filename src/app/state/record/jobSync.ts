/**
 * Brings what this tab has of a job and what the record has of it together. Another tab may have the same job open: where
 * only one of them has changed it, the other follows; where both have, both are kept and the person is told.
 */
import { fingerprint } from "../../../record/canonical.ts";
import { type JobTexts, titleWith } from "../../../record/job.ts";
import { SetupError } from "../../../setup/problem.ts";
import { writeDocument } from "../keeping/documentFile.ts";
import { readDocument } from "../keeping/readDocument.ts";
import type { Document } from "../state.ts";
import type { Store } from "../store.ts";
import type { Agreements } from "./agreement.ts";
import type { Row } from "./database.ts";
import type { JobRecord } from "./jobRecord.ts";
import { sayBothKept, sayFlaws, sayGone, sayUnopenable } from "./openJobMessages.ts";
import { troubleText } from "./trouble.ts";

/** What comes of it for the one that watches over the open job. */
export interface SyncNews {
  /** The record has the newest. */
  kept(): void;
  /** The two agree, or are about to. */
  agreed(row: Row): void;
  /** This tab is about to write: that is noted on the disk first. */
  announced(): Promise<void>;
  /** The person wants what is open kept as a job. */
  keep(): void;
  open(id: string): void;
}

export class JobSync {
  readonly #agreed: Agreements;
  readonly #store: Store;
  readonly #news: SyncNews;

  constructor(store: Store, agreed: Agreements, news: SyncNews) {
    this.#agreed = agreed;
    this.#store = store;
    this.#news = news;
  }

  /** Opens a job. The answer: whether it could be. */
  async show(record: JobRecord, id: string): Promise<boolean> {
    const kept = await record.get(id);
    if (!kept) {
      this.#store.say("error", "This job is not in the record any more.");
      return false;
    }
    try {
      const document = { ...readDocument(kept.document), job: id };
      this.#agreed.set(id, { revision: kept.row.revision, text: JSON.stringify(kept.document), document });
      this.#store.open(document);
      sayFlaws(this.#store, `“${kept.row.title}”`, document.setup);
      return true;
    } catch (error) {
      if (!(error instanceof SetupError)) throw error;
      sayUnopenable(this.#store, troubleText(error), kept.row, kept.document);
      return false;
    }
  }

  /** Keeps what a job's document is by now. */
  async save(record: JobRecord, document: Document): Promise<void> {
    const agreed = this.#agreed.of(document);
    if (!agreed || agreed.document === document) return;
    const kept = writeDocument(document);
    this.#agreed.set(document.job!, { ...agreed, writing: fingerprint(kept) });
    await this.#news.announced();
    const written = await record.write(document.job!, agreed.revision, kept);
    if (typeof written === "string") return this.agree(record, document.job!);
    this.#agreed.set(document.job!, { revision: written.revision, text: JSON.stringify(kept), document });
    this.#news.kept();
  }

  /** Brings this tab and the record to agree on a job after either has gone on. */
  async agree(record: JobRecord, id: string): Promise<void> {
    const kept = await record.get(id);
    const { document } = this.#store.state;
    if (document.job !== id) return;
    if (!kept) return this.#detach(id);
    const { row } = kept;
    const { revision } = row;
    const text = JSON.stringify(kept.document);
    const standing = this.#agreed.standing(document, JSON.stringify(writeDocument(document)), revision, text);
    if (standing === "both") return this.#keepBoth(record, row);
    if (standing === "record") {
      const newer = { ...readDocument(kept.document), job: id };
      this.#agreed.set(id, { revision, text, document: newer });
      this.#store.follow(newer);
    } else this.#agreed.set(id, { revision, text, document: standing === "same" ? document : null });
    this.#news.agreed(row);
    if (standing === "tab") await this.save(record, document);
  }

  /** This tab's becomes a job of its own. */
  async #keepBoth(record: JobRecord, { id, title, player, instrument, mouthpiece }: Row): Promise<void> {
    const own = titleWith(title, "from this tab");
    await this.keepAs(record, { title: own, player, instrument, mouthpiece });
    this.#agreed.forget(id);
    sayBothKept(this.#store, title, own, () => this.#news.open(id));
  }

  /** Keeps what is open as a new job. */
  async keepAs(record: JobRecord, texts: JobTexts): Promise<void> {
    const { document } = this.#store.state;
    const { id, revision, document: kept } = await record.add(texts, writeDocument(document));
    const isStillOpen = this.#store.state.document === document;
    const agreed = { revision, text: JSON.stringify(kept), document: null };
    this.#agreed.set(id, agreed);
    this.#store.belongTo(id);
    if (isStillOpen) this.#agreed.set(id, { ...agreed, document: this.#store.state.document });
  }

  /** Keeps what is open under its own id again after the database lost it. */
  async keepAgain(record: JobRecord, head: Row): Promise<boolean> {
    const { document } = this.#store.state;
    const agreed = this.#agreed.of(document);
    if (document.job !== head.id || !agreed) return false;
    const { gapMm: _gap, holds: _holds, deleted: _deleted, ...own } = head;
    const back = await record.putBack([{ ...own, document: writeDocument(document) }]);
    return back.length > 0;
  }

  /** Its job is gone from the record: what is here is all there is. */
  #detach(id: string): void {
    this.#agreed.forget(id);
    this.#store.belongTo(null);
    sayGone(this.#store, () => this.#news.keep());
  }
}
