/**
 * What loudness does to the peaks: the air that swings through an edge loses energy in proportion to the square of its speed,
 * so a peak that is tall when soft is lower when loud. Each edge is a resistance in series with the linear air column,
 *
 *   [p, U]rim = cup · R_throat · throat and backbore · R_gap · gap · load,   R = (8/3π) Δp(|U|)/|U|,
 *
 * with |U| at that edge for the stated pressure at the rim, which R itself changes: solved by fixed point. Δp is the steady loss
 * of `flow`, mean of both directions: at the gap by its three figures, put at the shank's end, as a gap is far shorter than any wave; at
 * the throat's entry all area changes of the mouthpiece, since the throat's speed makes nearly all of them.
 *
 * Left out: the steady flow beside the swinging one, edges elsewhere in the bore, the steepening of loud waves (what makes brass
 * sound brassy), and that an edge is quasi-steady only where the air travels further than the edge is thick.
 */

import { Chain } from "../../acoustics/duct/chain.ts";
import { FIXED, LOAD } from "../../acoustics/duct/line.ts";
import { applyTo, STATE, TWO_PORT } from "../../acoustics/duct/twoPort.ts";
import type { Gap } from "../../acoustics/gap/gap.ts";
import { firstHarmonicResistance } from "../../flow/describingFunction.ts";
import { reynoldsNumber, turbulentPart } from "../../flow/friction.ts";
import { type Bounded, type GapShape, gapFromBehind, jetLoss } from "../../flow/gapLoss.ts";
import { type Cone, dynamicPressure, type Gas, pipeLoss, reversed } from "../../flow/pipe.ts";
import { throatEdgeLoss } from "../../flow/throatEdge.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Instrument, Mode } from "../instrument/instrument.ts";
import { decibels } from "../instrument/pitch.ts";
import { flowPath, gapShape } from "./flowPath.ts";

export interface LevelPoint {
  /** Sound pressure level at the rim, dB re 20 µPa (rms of a sine). */
  readonly levelDb: number;
  /** The peak with the throat's loss and the gap's estimate; null where damping leaves none. */
  readonly peakHz: number | null;
  readonly peakImpedance: number | null;
  /** Its height against the soft peak's, dB; a trace above 0 where the resistance itself, near the rim, is all that shows. */
  readonly heightDb: number | null;
  /** The same with the gap's edges alone, by its three figures. */
  readonly gapAloneDb: Readonly<Record<keyof Bounded, number | null>>;
}

export interface LevelMode {
  readonly n: number;
  /** As soft as can be: the linear peak. */
  readonly softHz: number;
  readonly softImpedance: number;
  readonly levels: readonly LevelPoint[];
}

export interface LevelLoss {
  readonly gapMm: number;
  /** Modes that have a peak. */
  readonly modes: readonly LevelMode[];
}

/** Soft to very loud, dB at the rim. */
export const LEVELS_DB: readonly number[] = [120, 130, 140, 150, 160];

export interface LevelLossOptions {
  readonly gapsMm: readonly number[];
  readonly levelsDb?: readonly number[];
}

/**
 * Peak heights against level, gap by gap.
 * @throws SetupError on a gap the receiver cannot have; RangeError on a level outside 0 to 180 dB
 */
export function levelLoss(
  instrument: Instrument,
  { gapsMm, levelsDb = LEVELS_DB }: LevelLossOptions,
): LevelLoss[] {
  for (const level of levelsDb)
    if (!(level >= 0 && level <= 180))
      throw new OutOfRange(
        `a level of ${level} dB at the rim cannot be computed: give 0 to 180 dB, played ones being about 120 to 165`,
      );
  return gapsMm.map((gapMm) => {
    const circuit = new Circuit(instrument, gapMm);
    const modes = instrument
      .modes(gapMm)
      .flatMap((mode) =>
        mode.peakHz === null || mode.peakImpedance === null
          ? []
          : [modeAtLevels(circuit, mode, mode.peakHz, mode.peakImpedance, levelsDb)],
      );
    return { gapMm, modes };
  });
}

function modeAtLevels(
  circuit: Circuit,
  { n, Q }: Mode,
  softHz: number,
  softImpedance: number,
  levelsDb: readonly number[],
): LevelMode {
  const height = (level: number, edges: Edges) => {
    const peak = peakNear(softHz, softHz / (2 * Q), (f) => circuit.impedance(f, rimPressure(level), edges));
    return peak && { ...peak, heightDb: decibels(peak.impedance, softImpedance) };
  };
  const levels = levelsDb.map((levelDb) => {
    const all = height(levelDb, { throat: true, gap: "estimate" });
    const alone = (gap: keyof Bounded) => height(levelDb, { throat: false, gap })?.heightDb ?? null;
    return {
      levelDb,
      peakHz: all?.frequency ?? null,
      peakImpedance: all?.impedance ?? null,
      heightDb: all?.heightDb ?? null,
      gapAloneDb: { lower: alone("lower"), estimate: alone("estimate"), upper: alone("upper") },
    };
  });
  return { n, softHz, softImpedance, levels };
}

/** Amplitude of a sine, Pa, of a level in dB re 20 µPa. */
const rimPressure = (levelDb: number): number => Math.SQRT2 * 20e-6 * 10 ** (levelDb / 20);

/** Which losses take part. */
interface Edges {
  readonly throat: boolean;
  readonly gap: keyof Bounded;
}

/** The air column at one gap with resistances at its edges. */
class Circuit {
  readonly #instrument: Instrument;
  readonly #gap: Gap;
  readonly #shape: GapShape;
  readonly #gas: Gas;
  readonly #cup: Chain;
  readonly #backbore: Chain;
  /** Loss at the throat over the square of the flow, Pa·s²/m⁶. */
  readonly #throatLoss: number;
  readonly #fixed = new Float64Array(FIXED);
  readonly #gapPort = new Float64Array(TWO_PORT);
  readonly #cupPort = new Float64Array(TWO_PORT);
  readonly #backborePort = new Float64Array(TWO_PORT);

  constructor(instrument: Instrument, gapMm: number) {
    this.#instrument = instrument;
    this.#gap = instrument.gap(gapMm);
    this.#shape = gapShape(instrument.setup, gapMm);
    const { air, pipes, throatEdge } = flowPath(instrument.setup);
    this.#gas = air;
    const lossOfUnitFlow = (cones: readonly Cone[]) => pipeLoss(cones, air, 1).areaChange;
    // swinging air keeps its layers thin: at the edge it leaves the wall as a turbulent stream does
    const edge =
      dynamicPressure(1, throatEdge.diameter / 2, air.density) * throatEdgeLoss(throatEdge, 1).estimate;
    const inward = edge + lossOfUnitFlow([...pipes.throat, ...pipes.backbore]);
    const back = lossOfUnitFlow(reversed([...pipes.cup, ...pipes.throat, ...pipes.backbore]));
    this.#throatLoss = (inward + back) / 2;
    const { bore } = instrument.column.line;
    const narrowest = Math.min(...bore.mouthpiece.map(({ radiusOut }) => radiusOut));
    const behindCup = 1 + bore.mouthpiece.findIndex(({ radiusOut }) => radiusOut === narrowest);
    const chain = (pieces: typeof bore.mouthpiece) => new Chain(pieces, bore.wallLossFactor, bore.junction);
    this.#cup = chain(bore.mouthpiece.slice(0, behindCup));
    this.#backbore = chain(bore.mouthpiece.slice(behindCup));
  }

  /**
   * |Z| at the rim, Pa·s/m³, at a frequency in Hz and a pressure amplitude at the rim in Pa.
   * @throws OutOfRange where no steady state is found
   */
  impedance(frequency: number, pressure: number, edges: Edges): number {
    const omega = 2 * Math.PI * frequency;
    this.#instrument.column.fixedParts.evaluate(frequency, 0, this.#fixed);
    this.#gap.twoPort(omega, 0, this.#gapPort);
    this.#cup.twoPort(omega, 0, this.#cupPort);
    this.#backbore.twoPort(omega, 0, this.#backborePort);
    const state = new Float64Array(STATE);
    let gapFlow = 0;
    let throatFlow = 0;
    for (let i = 0; i < MOST_STEPS; i++) {
      for (let k = 0; k < STATE; k++) state[k] = this.#fixed[LOAD + k];
      applyTo(state, this.#gapPort);
      const gapHere = flowIn(state);
      addResistance(state, this.#gapResistance(gapFlow, edges.gap));
      applyTo(state, this.#backborePort);
      const throatHere = flowIn(state);
      addResistance(state, edges.throat ? firstHarmonic(this.#throatLoss * throatFlow ** 2, throatFlow) : 0);
      applyTo(state, this.#cupPort);
      const scale = pressure / Math.hypot(state[0], state[1]);
      const nextGap = relaxed(gapFlow, gapHere * scale);
      const nextThroat = relaxed(throatFlow, throatHere * scale);
      const moved = Math.abs(nextGap - gapFlow) / nextGap + Math.abs(nextThroat - throatFlow) / nextThroat;
      gapFlow = nextGap;
      throatFlow = nextThroat;
      if (moved < CONVERGED) return Math.hypot(state[0], state[1]) / flowIn(state);
    }
    throw new OutOfRange(
      `no steady state was found at ${frequency.toFixed(1)} Hz and ${pressure.toPrecision(3)} Pa at the rim: give a lower level`,
    );
  }

  #gapResistance(amplitude: number, figure: keyof Bounded): number {
    if (amplitude === 0) return 0;
    const { density, viscosity } = this.#gas;
    const loss = (shape: GapShape) =>
      jetLoss(
        shape,
        this.#gas,
        amplitude,
        turbulentPart(reynoldsNumber(amplitude, shape.shankExit, viscosity / density)),
      );
    const outward = loss(this.#shape);
    const back = loss(gapFromBehind(this.#shape));
    return firstHarmonic((outward[figure] + back[figure]) / 2, amplitude);
  }
}

const MOST_STEPS = 200;
const CONVERGED = 1e-10;

/**
 * The next amplitude from the last and from what it led to. A resistance that grows with the flow makes what it leads to fall
 * as its power −m, m from 0 to 1; this mean shrinks the error by 3 or more for all of them.
 */
const relaxed = (last: number, led: number): number => (last === 0 ? led : Math.cbrt(last * led * led));

const firstHarmonic = (loss: number, amplitude: number): number =>
  amplitude === 0 ? 0 : firstHarmonicResistance(loss, amplitude);

const flowIn = (state: Float64Array): number => Math.hypot(state[2], state[3]);

/** p ← p + RU */
function addResistance(state: Float64Array, resistance: number): void {
  state[0] += resistance * state[2];
  state[1] += resistance * state[3];
}

/** Maximum of |Z| within two half-widths of where it was; Newton on ln |Z| from three neighbours. Null where none is left. */
function peakNear(
  start: number,
  halfWidth: number,
  impedance: (frequency: number) => number,
): { frequency: number; impedance: number } | null {
  const h = halfWidth / 200;
  let f = start;
  for (let i = 0; i < 40; i++) {
    const here = impedance(f);
    const below = Math.log(impedance(f - h) / here);
    const above = Math.log(impedance(f + h) / here);
    const curvature = above + below;
    const step = (-h * (above - below)) / (2 * curvature);
    if (!(curvature < 0) || Math.abs(f + step - start) > 2 * halfWidth) return null;
    if (Math.abs(step) < 1e-3 * h) return { frequency: f, impedance: here };
    f += step;
  }
  return null;
}
