/** What the model says of the two gaps compared: kept beside the store, asked for anew as the document changes. */
import type { Model } from "../../../workers/instrument/model.ts";
import { sweptGapsMm } from "../../setup/gapLimits.ts";
import type { BreathEffect } from "../../study/blown/breathEffect.ts";
import type { ExploredUnderBreath, PicturedUnderBreath } from "../../study/blown/underBreath.ts";
import type { GapSweep } from "../../study/instrument/gapSweep.ts";
import type { Compared, ComparedGaps } from "./comparedGaps.ts";
import { type BesideReference, Explorer, type Exploring, isBesideSame } from "./exploring.ts";
import { sameToModel } from "./sameToModel.ts";
import { type Answer, Work, Works } from "./work.ts";
import type { WorkerClient } from "./workerClient.ts";

type Sweeping = BesideReference & Pick<Exploring, "retune">;
type Blowing = BesideReference & Pick<Exploring, "gapMm">;

export interface Results {
  /** Its step is the newest that can be drawn: there before what is judged of it. */
  readonly explored: Answer<ExploredUnderBreath, Exploring, PicturedUnderBreath>;
  /** What the breath does to the peaks; empty in still air. */
  readonly breath: Answer<BreathEffect, Blowing>;
  /** Every resonance at every gap shown, the slide as it is. */
  readonly sweep: Answer<GapSweep, Sweeping>;
  /** The same with the slide bringing `view.retune` back; empty while that is null. */
  readonly retuned: Answer<GapSweep, Sweeping>;
}

/** Bounds take three more air columns: they wait until the hand rests. */
const REST_MS = 200;

/** Longest that what stands beside the charts waits for them, ms. */
const PICTURED_MS = 50;

export class ModelResults extends Works<Results> {
  readonly #compared: ComparedGaps;
  readonly #explored: Work<Exploring, ExploredUnderBreath, PicturedUnderBreath>;
  readonly #breath: Work<Blowing, BreathEffect>;
  readonly #sweep: Work<Sweeping, GapSweep>;
  readonly #retuned: Work<Sweeping, GapSweep>;
  /** What was swept last. */
  #swept: Sweeping | null = null;
  #sweepEnds: Promise<unknown> = Promise.resolve();

  constructor(compared: ComparedGaps, client: WorkerClient<Model>) {
    const explorer = new Explorer();
    const explored = new Work<Exploring, ExploredUnderBreath, PicturedUnderBreath>({
      ask: (question, tell, signal) =>
        client.ask(
          question.setup,
          (model) => explorer.ask(model, question, (pictured) => tell(null, pictured)),
          signal,
        ),
      isOvertaken: (underWay, newest) => !sameToModel(underWay.setup, newest.setup),
      isSame: (a, b) => isSwept(a, b) && a.gapMm === b.gapMm && a.resonance === b.resonance,
      isQuick: true,
      // a setup's first answer does not wait for the uncertainties
      isProvisional: ({ uncertainty }) => uncertainty === null,
    });
    const breath = new Work<Blowing, BreathEffect>({
      ask: ({ setup, gapMm, referenceGapMm, litresPerMinute }) =>
        client.ask(setup, (model) => model.breathEffect(litresPerMinute, gapMm, referenceGapMm)),
      isSame: (a, b) => isBesideSame(a, b) && a.gapMm === b.gapMm,
      restMs: REST_MS,
    });
    const sweeping = (whenever: () => Promise<unknown>) =>
      new Work<Sweeping, GapSweep>({
        ask: async ({ setup, referenceGapMm, retune, litresPerMinute }, tell, signal) => {
          await whenever();
          const request = {
            gapsMm: sweptGapsMm(setup),
            referenceGapMm,
            litresPerMinute,
            ...(retune !== null && { retune }),
          };
          return client.run("sweep", setup, request, (done, of) => tell(done / of), signal);
        },
      });
    const sweep = sweeping(() => Promise.resolve());
    const retuned = sweeping(() => this.#sweepEnds);
    super({ explored, breath, sweep, retuned });
    this.#compared = compared;
    this.#explored = explored;
    this.#breath = breath;
    this.#sweep = sweep;
    this.#retuned = retuned;
  }

  /** Follows what is compared from now on. */
  start(): void {
    this.#compared.subscribe((compared) => this.#follow(compared));
    this.#follow(this.#compared.value);
  }

  /** Stops long work; what is drawn stays, marked stale, until `sweepAgain` or the next change. */
  stopSweeps(): void {
    this.#sweep.stop();
    this.#retuned.stop();
  }

  sweepAgain(): void {
    if (this.#swept) this.#sweepFor(this.#swept);
  }

  /**
   * Resolves when the charts have something new to draw, at once where they show the newest gap already, and soon in any case.
   * What is drawn then has no frame of its own between a hand and the charts.
   */
  async pictured(): Promise<void> {
    const { step } = this.#explored.value;
    if (step?.chosen.gapMm === this.#compared.value.document.gapMm) return;
    await new Promise<void>((resolve) => {
      const end = () => {
        leave();
        clearTimeout(timer);
        resolve();
      };
      const timer = setTimeout(end, PICTURED_MS);
      const leave = this.#explored.subscribe((now) => {
        if (now.step !== step || now.refused !== null) end();
      });
    });
  }

  #follow({ document, view: { resonance, retune } }: Compared): void {
    const { setup, gapMm, referenceGapMm, breathLitresPerMinute: litresPerMinute = 0 } = document;
    this.#explored.ask({ setup, gapMm, referenceGapMm, resonance, retune, litresPerMinute });
    if (litresPerMinute === 0) this.#breath.clear();
    else this.#breath.ask({ setup, gapMm, referenceGapMm, litresPerMinute });
    const swept = { setup, referenceGapMm, retune, litresPerMinute };
    if (!this.#swept || !isSwept(this.#swept, swept)) this.#sweepFor(swept);
  }

  /** One after the other: newer long work ends older. */
  #sweepFor(question: Sweeping): void {
    this.#swept = question;
    this.#sweepEnds = this.#sweep.start({ ...question, retune: null });
    if (question.retune === null) this.#retuned.clear();
    else void this.#retuned.start(question);
  }
}

const isSwept = (a: Sweeping, b: Sweeping): boolean => isBesideSame(a, b) && a.retune === b.retune;
