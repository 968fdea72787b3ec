/**
 * A measured impedance beside the model of one setup, and a fit of a few unknowns to it. What was found stays until something
 * else is asked; the worker is its own and ends with `close`.
 */
import type { ColumnFitRequest, CompareWorker, FittedColumn } from "../../../workers/compareProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { FitStep } from "../../study/measured/columnFit.ts";
import type { Measured, Overlay } from "../../study/measured/measured.ts";
import { Observable } from "../state/observable.ts";
import { CompareClient } from "./compareClient.ts";
import { sameToModel } from "./sameToModel.ts";
import type { Connection } from "./workerClient.ts";

export interface MeasuredState {
  /** What is laid over the model, and how far the two are apart; null before the first answer. */
  readonly laid: { readonly measured: Measured; readonly overlay: Overlay } | null;
  /** The last step of a fit under way; null where none is. */
  readonly step: FitStep | "first" | null;
  readonly fit: FittedColumn | null;
  readonly refused: string | null;
}

const NOTHING: MeasuredState = { laid: null, step: null, fit: null, refused: null };

export class MeasuredWork extends Observable<MeasuredState> {
  readonly #client: CompareClient;
  #of: { readonly setup: Setup; readonly measured: Measured } | null = null;
  #work: AbortController | null = null;

  constructor(connect: () => Connection<CompareWorker>) {
    super(NOTHING);
    this.#client = new CompareClient(connect);
  }

  /** Lays the measurement over this setup's model, unless that is what is there. */
  async lay(setup: Setup, measured: Measured): Promise<void> {
    const last = this.#of;
    if (last && last.measured === measured && sameToModel(last.setup, setup)) return;
    const of = { setup, measured };
    this.#of = of;
    this.#end();
    // the old one stays until the new one is there
    this.change({ ...NOTHING, laid: this.value.laid });
    const answer = await this.#client.overlay(setup, measured);
    if (this.#of !== of) return;
    if ("refused" in answer) this.change({ ...NOTHING, refused: answer.refused });
    else this.change({ ...this.value, laid: { measured, overlay: answer } });
  }

  /** Fits to what was laid over last. */
  async fit(question: Omit<ColumnFitRequest, "ticket" | "measured">): Promise<void> {
    const of = this.#of;
    if (!of) return;
    this.#end();
    const work = new AbortController();
    this.#work = work;
    this.change({ ...this.value, step: "first", refused: null });
    const tell = (step: FitStep) => this.change({ ...this.value, step });
    const answer = await this.#client.fitColumn(
      of.setup,
      { ...question, measured: of.measured },
      tell,
      work.signal,
    );
    if (work.signal.aborted || answer === null) return;
    if ("refused" in answer) this.change({ ...this.value, step: null, refused: answer.refused });
    else this.change({ ...this.value, step: null, fit: answer });
  }

  /** What was found before stays. */
  stop(): void {
    this.#end();
    this.change({ ...this.value, step: null });
  }

  /** Nothing is laid over any more. */
  clear(): void {
    if (!this.#of) return;
    this.#of = null;
    this.#end();
    this.change(NOTHING);
  }

  close(): void {
    this.clear();
    this.#client.close();
  }

  #end(): void {
    this.#work?.abort();
    this.#work = null;
  }
}
