/**
 * One setup as its air stands still and as it is blown: everything that is explored, under a breath, with still air's curve beside it.
 * What only a breath needs is fetched with the first one.
 */
import type { CoverageFactor } from "../../bench/measure/combinedUncertainty.ts";
import type { Setup } from "../../setup/setup.ts";
import { Exploration, type Judged, type Pictured, type ScreenCurve } from "../instrument/exploration.ts";
import type { BlownInstruments, BreathEffect } from "./breathEffect.ts";

export interface PicturedUnderBreath extends Pictured {
  /** The chosen gap's curve in still air; absent where what is explored is still air itself. */
  readonly stillCurve?: ScreenCurve;
}

export interface ExploredUnderBreath extends PicturedUnderBreath, Judged {}

/** What is kept of the breath that was asked about last. */
interface Blown {
  readonly litresPerMinute: number;
  readonly exploration: Exploration;
  instruments: BlownInstruments | null;
}

export class UnderBreath {
  readonly still: Exploration;
  #blown: Blown | null = null;

  constructor(
    readonly setup: Setup,
    readonly coverage: CoverageFactor,
  ) {
    this.still = new Exploration(setup, coverage);
  }

  /**
   * The setup under a breath; at once in still air.
   * @throws OutOfRange on a breath that cannot be computed
   */
  at(litresPerMinute: number): Exploration | Promise<Exploration> {
    if (litresPerMinute === 0) return this.still;
    return this.#blownAt(litresPerMinute).then(({ exploration }) => exploration);
  }

  /** What `Exploration.picture` answers, under a breath. */
  async picture(
    litresPerMinute: number,
    gapMm: number,
    ...rest: [referenceGapMm: number, resonance: number]
  ): Promise<PicturedUnderBreath> {
    const exploration = await this.at(litresPerMinute);
    const pictured = exploration.picture(gapMm, ...rest);
    return exploration === this.still ? pictured : { ...pictured, stillCurve: this.still.curveAt(gapMm) };
  }

  /** What `Exploration.judge` answers, under a breath. */
  async judge(
    litresPerMinute: number,
    ...question: [gapMm: number, referenceGapMm: number, retune: number | null]
  ): Promise<Judged> {
    return (await this.at(litresPerMinute)).judge(...question);
  }

  /** @throws OutOfRange on a breath that cannot be computed, SetupError on a gap the receiver cannot have */
  async effect(litresPerMinute: number, gapMm: number, referenceGapMm: number): Promise<BreathEffect> {
    const blown = await this.#blownAt(litresPerMinute);
    const { blownInstruments, breathEffect } = await import("./breathEffect.ts");
    blown.instruments ??= blownInstruments(
      this.still.instrument,
      blown.exploration.instrument,
      litresPerMinute,
    );
    return breathEffect(blown.instruments, litresPerMinute, gapMm, referenceGapMm);
  }

  async #blownAt(litresPerMinute: number): Promise<Blown> {
    const { breathOf } = await import("./breath.ts");
    if (this.#blown?.litresPerMinute === litresPerMinute) return this.#blown;
    const exploration = new Exploration(this.setup, this.coverage, breathOf(this.setup, litresPerMinute));
    this.#blown = { litresPerMinute, exploration, instruments: null };
    return this.#blown;
  }
}
