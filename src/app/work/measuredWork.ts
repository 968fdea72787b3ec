/** A measured impedance beside the model of one setup, and a fit of a few unknowns to it, in a worker of their own. */
import type { ColumnFitRequest, FittedColumn } from "../../../workers/instrument/compare.ts";
import type { Setup } from "../../setup/setup.ts";
import type { FitStep } from "../../study/measured/columnFit.ts";
import type { Measured, Overlay } from "../../study/measured/measured.ts";
import { openCompareWorker } from "./openWorkers.ts";
import { sameToModel } from "./sameToModel.ts";
import { Work } from "./work.ts";
import { WorkerClient } from "./workerClient.ts";

interface Laid {
  readonly setup: Setup;
  readonly measured: Measured;
}

type Fitting = Laid & Omit<ColumnFitRequest, "ticket">;

export class MeasuredWork {
  readonly #client = new WorkerClient({ connect: openCompareWorker });
  /** What is laid over the model, and how far the two are apart. */
  readonly laid = new Work<Laid, Overlay>({
    ask: ({ setup, measured }) => this.#client.ask(setup, (worker) => worker.overlay(measured)),
    isSame,
  });
  /** The unknowns fitted to what was laid over last. */
  readonly fit = new Work<Fitting, FittedColumn, FitStep>({
    ask: ({ setup, ...question }, tell, signal) =>
      this.#client.run("fitColumn", setup, question, (step) => tell(0, step), signal),
  });

  /** Lays the measurement over this setup's model, unless that is what is there; a fit to another is of no use then. */
  lay(setup: Setup, measured: Measured): void {
    const { asked } = this.laid.value;
    if (asked && !isSame(asked, { setup, measured })) this.fit.clear();
    this.laid.ask({ setup, measured });
  }

  /** Fits to what was laid over last. */
  startFit(question: Omit<ColumnFitRequest, "ticket" | "measured">): void {
    const { asked } = this.laid.value;
    if (asked) void this.fit.start({ ...asked, ...question });
  }

  close(): void {
    this.laid.clear();
    this.fit.clear();
    this.#client.close();
  }
}

const isSame = (a: Laid, b: Laid): boolean => a.measured === b.measured && sameToModel(a.setup, b.setup);
