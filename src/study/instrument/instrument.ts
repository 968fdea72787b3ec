/**
 * One setup ready to answer questions: its air column over the range its resonances need, and its modes at any gap.
 */

import { AirColumn } from "../../acoustics/airColumn.ts";
import { boreLength, boreOf } from "../../acoustics/duct/bore.ts";
import type { Breath } from "../../acoustics/duct/breath.ts";
import { Line } from "../../acoustics/duct/line.ts";
import { settledBell } from "../../acoustics/duct/settledBell.ts";
import type { Gap } from "../../acoustics/gap/gap.ts";
import { type Resonance, resonanceNear, resonancesOf } from "../../acoustics/resonance/resonances.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { withBell } from "../../setup/withBell.ts";
import { withGap } from "../../setup/withGap.ts";
import { OutOfRange } from "../../units/outOfRange.ts";

/** One resonance and the peak that belongs to it. */
export interface Mode {
  /** Number from the lowest resonance up. */
  readonly n: number;
  readonly frequencyHz: number;
  readonly Q: number;
  /** Maximum of |Z|; null where damping leaves none. */
  readonly peakHz: number | null;
  /** |Z| there, Pa·s/m³ */
  readonly peakImpedance: number | null;
}

export interface InstrumentOptions {
  /** How many resonances, from the lowest. */
  readonly modes?: number;
  /** A range in Hz that curves will be asked for, beside the one the resonances need. */
  readonly curveHz?: readonly [low: number, high: number];
  /** A stream through it; of the one it is like if absent, still air without either. */
  readonly breath?: Breath | null;
  /**
   * One that differs a little: its range is taken over, what is the same in both, and what curved fronts do in its bell (`Line`).
   */
  readonly like?: Instrument;
}

/** How much longer a look at a bore that crowds its resonances upwards. */
const LONGER = 1.3;

/** One setup ready to be asked for its modes at any gap and slide. */
export class Instrument {
  readonly column: AirColumn;
  readonly modeCount: number;
  /** The setup's own gap, mm. */
  readonly gapMm: number;

  /** As it was worked out: which bell is settled. */
  readonly setup: Setup;
  readonly #like: Instrument | null;

  constructor(
    asked: Setup,
    {
      like,
      modes = like?.modeCount ?? 12,
      curveHz,
      breath = like?.column.line.breath ?? null,
    }: InstrumentOptions = {},
  ) {
    this.modeCount = modes;
    this.gapMm = ownGapMm(asked);
    // in still air none is asked for again: a row of instruments, each like the one before, is not held
    this.#like = (breath && like) ?? null;
    if (like) {
      const { bell } = like.setup.model;
      const setup = asked.model.bell === "automatic" && bell !== "automatic" ? withBell(asked, bell) : asked;
      this.setup = setup;
      const line = new Line(setup, breath, like.column.line);
      const { lowest, highest, fixedParts } = like.column;
      const isSame = hasSameFixedParts(setup, like.setup) && breath === like.column.line.breath;
      const same = isSame ? fixedParts : undefined;
      this.column = new AirColumn(setup, lowest, highest, line, same);
      return;
    }
    // neighbours lie about c/2L apart, the lowest near c/4L or, in a flaring bore, above it
    const bore = boreOf(asked);
    const spacing = bore.bellAir.soundSpeed / (2 * boreLength(bore));
    const low = Math.min(spacing / 4, curveHz?.[0] ?? Infinity);
    let high = Math.max((modes + 2) * spacing, curveHz?.[1] ?? 0);
    // curved fronts no further up than is looked: beyond, they cost most
    const settled = (): Line => new Line(settledBell(asked, high), breath, null, high);
    let line = settled();
    let column = new AirColumn(line.setup, low, high, line);
    // a bore that crowds its resonances upwards needs a longer look
    let found = -1;
    for (let tries = 0; tries < 3; tries++) {
      const gap = line.gap(this.gapMm / 1000);
      const resonances = resonancesOf(column, gap, modes);
      this.#ownGap = gap;
      this.#lastResonances = { gap, resonances };
      const count = resonances.length;
      // where a longer look has found none more, there are none
      if (count >= modes || count === found) break;
      found = count;
      this.#ownGap = this.#lastResonances = null;
      high *= LONGER;
      line = settled();
      column = new AirColumn(line.setup, low, high, line);
    }
    this.setup = line.setup;
    this.column = column;
  }

  #still: Instrument | null = null;

  /** The same in still air; itself where no breath goes through it. */
  get still(): Instrument {
    if (!this.column.line.breath) return this;
    const like = this.#like?.still ?? this;
    const isSame = like.setup === this.setup && like.modeCount === this.modeCount;
    this.#still ??=
      isSame && like !== this
        ? like
        : new Instrument(this.setup, { like, modes: this.modeCount, breath: null });
    return this.#still;
  }

  /** The setup's own gap, where the instrument was made with it. */
  #ownGap: Gap | null = null;
  #lastGap: { readonly gapMm: number; readonly gap: Gap } | null = null;
  #lastResonances: { readonly gap: Gap; readonly resonances: readonly Resonance[] } | null = null;

  /**
   * The air column's gap for a gap in mm; refuses one the receiver cannot have. The last one is kept: its modes, its curve and
   * its standing wave are asked for one after the other, and its radial modes cost more than any of them.
   */
  gap(gapMm: number): Gap {
    if (this.#lastGap?.gapMm !== gapMm) {
      withGap(this.setup, gapMm);
      const own = gapMm === this.gapMm ? this.#ownGap : null;
      this.#lastGap = { gapMm, gap: own ?? this.column.line.gap(gapMm / 1000) };
    }
    return this.#lastGap.gap;
  }

  /** Modes at a gap, the slide drawn by `drawMm`. */
  modes(gapMm: number, drawMm = 0): Mode[] {
    return this.resonances(gapMm, drawMm).map(asMode);
  }

  /** The same as the air column has them, in Hz; those with the slide at rest are kept with the gap. */
  resonances(gapMm: number, drawMm = 0): readonly Resonance[] {
    const gap = this.gap(gapMm);
    if (drawMm !== 0) return resonancesOf(this.column, gap, this.modeCount, drawMm / 1000);
    if (this.#lastResonances?.gap !== gap)
      this.#lastResonances = { gap, resonances: resonancesOf(this.column, gap, this.modeCount) };
    return this.#lastResonances.resonances;
  }

  /**
   * Slide, mm drawn, that brings resonance `n` at this gap back to `targetHz`; the secant method.
   * @throws OutOfRange in words where the setup has no slide there or it would have to go in too far
   */
  drawFor(n: number, targetHz: number, gapMm: number): number {
    const { slide } = this.column.line.bore;
    if (!slide)
      throw new OutOfRange(
        "body.slideAt is missing: give the slide's place in the body, in mm, to see retuned results",
      );
    const gap = this.gap(gapMm);
    const modes = this.resonances(gapMm);
    const start = modes[n - 1];
    if (!start)
      throw new OutOfRange(`resonance ${n} does not exist here: choose one from 1 to ${modes.length}`);
    let at: Resonance = start;
    const miss = (draw: number): number => {
      at = resonanceNear(this.column, gap, draw, at);
      return at.frequency / targetHz - 1;
    };
    let x0 = 0;
    let y0 = start.frequency / targetHz - 1;
    // longer by 1 mm in a column of length L is lower by about 1/L
    let x1 = y0 * this.column.line.length;
    for (let i = 0; i < 30 && Math.abs(x1 - x0) > 1e-12; i++) {
      const y1 = miss(x1);
      if (y1 === y0) break;
      [x0, x1, y0] = [x1, x1 - (y1 * (x1 - x0)) / (y1 - y0), y1];
    }
    if (x1 < -slide.pushMax)
      throw new OutOfRange(
        `retuning resonance ${n} at a gap of ${gapMm} mm needs ${(-1000 * x1).toFixed(1)} mm taken out of the slide, ` +
          `but the cylinder at body.slideAt is only ${(1000 * slide.pushMax).toFixed(1)} mm long`,
      );
    return 1000 * x1;
  }
}

const asMode = ({ frequency, Q, peak }: Resonance, i: number): Mode => ({
  n: i + 1,
  frequencyHz: frequency,
  Q,
  peakHz: peak?.frequency ?? null,
  peakImpedance: peak?.magnitude ?? null,
});

/** Mouthpiece, leadpipe and body with the air in them; what the receiver is has no part in it. */
const hasSameFixedParts = (a: Setup, b: Setup): boolean =>
  a.mouthpiece.profileMm === b.mouthpiece.profileMm &&
  a.leadpipe === b.leadpipe &&
  a.body === b.body &&
  a.air === b.air &&
  a.model === b.model;
