/**
 * An impedance from the responses of one rig on known tubes and on an instrument, with its uncertainty by first order (JCGM
 * 100:2008): the tubes' lengths and bores, the air's temperature and the noise of every response, each moved by its standard
 * uncertainty and all of it worked again. Tubes that miss one another by more than that explains widen it by the ratio (Birge
 * 1932, Phys. Rev. 40, 207).
 */
import { type StraightTube, straightTubeStates } from "../../acoustics/load/straightTube.ts";
import { type Climate, moistAir } from "../../acoustics/medium/air.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { calibrated, type KnownLoad, LEAST_LOADS } from "./calibration.ts";

/** What the rig gave: complex values, two doubles a frequency, and the standard deviation of each of both parts. */
export interface RigResponse {
  readonly values: Float64Array;
  readonly deviation: Float64Array;
}

export interface KnownTube extends StraightTube {
  readonly response: RigResponse;
}

/** Standard uncertainties. */
export interface TubeUncertainty {
  /** Of each tube's length, m. */
  readonly length: number;
  /** Of each tube's radius, m. */
  readonly radius: number;
  /** Of the air in all of them, °C. */
  readonly temperatureC: number;
}

export interface CalibratedImpedance {
  /** Hz */
  readonly frequencies: Float64Array;
  /** |Z|, Pa·s/m³ */
  readonly magnitude: Float64Array;
  /** rad */
  readonly phase: Float64Array;
  /** Half of the 95 % interval of ln |Z|; Infinity where the rig does not tell it. */
  readonly magnitudeExpanded: Float64Array;
  /** Of the phase, rad. */
  readonly phaseExpanded: Float64Array;
  /**
   * By how much more the tubes miss one another than their uncertainties explain, as a root mean square: about 1 where they are
   * what they are said to be. null with three, which always agree.
   */
  readonly disagreement: number | null;
  /**
   * The same in the lower and the upper half of the frequencies: a wrong length or another temperature shifts little at low ones.
   * null with three.
   */
  readonly disagreementAt: { readonly low: number; readonly high: number } | null;
}

const NINETY_FIVE = 1.96;
/** Of ln |Z| or of the phase, standard: beyond this first order means nothing. */
const BLIND = 0.5;

/**
 * @param tubes at least three; best of lengths that are no multiples of one another, closed and open
 * @throws OutOfRange in words
 */
export function calibratedImpedance(
  tubes: readonly KnownTube[],
  asked: RigResponse,
  frequencies: Float64Array,
  climate: Climate,
  uncertainty: TubeUncertainty,
): CalibratedImpedance {
  if (tubes.length < LEAST_LOADS)
    throw new OutOfRange(
      `${tubes.length} known ${tubes.length === 1 ? "tube" : "tubes"}: give ${LEAST_LOADS} at least, of different lengths`,
    );
  const air = moistAir(climate);
  const characteristic = (air.density * air.soundSpeed) / (Math.PI * tubes[0].radius ** 2);
  const loads = tubes.map((tube) => loadOf(tube, climate, frequencies));
  const best = calibrated(loads, asked.values, characteristic);
  const count = frequencies.length;
  const { impedance } = best;
  const magnitude = new Float64Array(count);
  const phase = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    magnitude[i] = Math.hypot(impedance[2 * i], impedance[2 * i + 1]);
    phase[i] = Math.atan2(impedance[2 * i + 1], impedance[2 * i]);
  }
  const magnitudeVariance = new Float64Array(count);
  const phaseVariance = new Float64Array(count);
  const explained = new Float64Array(count);
  for (const moved of movedRigs(tubes, loads, asked, frequencies, climate, uncertainty)) {
    const other = calibrated(moved.loads, moved.asked, characteristic);
    for (let i = 0; i < count; i++) {
      const [re, im] = ratio(other.impedance, impedance, i);
      magnitudeVariance[i] += (re - 1) ** 2;
      phaseVariance[i] += im ** 2;
    }
    addSquares(explained, other.misses, best.misses);
  }
  const missed = new Float64Array(count);
  addSquares(missed, best.misses);
  const disagreementOf = (from: number, to: number): number | null => {
    const [found, expected] = [missed, explained].map((squares) => sumOfNumbers(squares.subarray(from, to)));
    return tubes.length > LEAST_LOADS && expected > 0 ? Math.sqrt(found / expected) : null;
  };
  const disagreement = disagreementOf(0, count);
  const [low, high] = [disagreementOf(0, count >> 1), disagreementOf(count >> 1, count)];
  // what the tubes miss one another by is not explained: all that they tell is less certain by as much
  const widening = Math.max(1, disagreement ?? 1);
  const expanded = (variance: number, i: number) =>
    Math.max(magnitudeVariance[i], phaseVariance[i]) < BLIND ** 2
      ? NINETY_FIVE * widening * Math.sqrt(variance)
      : Infinity;
  return {
    frequencies,
    magnitude,
    phase,
    magnitudeExpanded: magnitudeVariance.map(expanded),
    phaseExpanded: phaseVariance.map(expanded),
    disagreement,
    disagreementAt: low === null || high === null ? null : { low, high },
  };
}

/** Adds the squares of complex values, or of their differences, to those of their frequency; loads stand one after the other. */
function addSquares(squares: Float64Array, values: Float64Array, others?: Float64Array): void {
  values.forEach((value, k) => {
    squares[(k >> 1) % squares.length] += (value - (others?.[k] ?? 0)) ** 2;
  });
}

/** What is no number, where the loads cannot be told apart, left out. */
const sumOfNumbers = (values: Float64Array): number =>
  values.reduce((sum, value) => (Number.isFinite(value) ? sum + value : sum), 0);

const loadOf = (tube: KnownTube, climate: Climate, frequencies: Float64Array): KnownLoad => ({
  states: straightTubeStates(tube, moistAir(climate), frequencies),
  response: tube.response.values,
});

interface MovedRig {
  readonly loads: readonly KnownLoad[];
  readonly asked: Float64Array;
}

/** The rig once for every uncertain thing, moved by its standard uncertainty. */
function* movedRigs(
  tubes: readonly KnownTube[],
  loads: readonly KnownLoad[],
  { values, deviation }: RigResponse,
  frequencies: Float64Array,
  climate: Climate,
  uncertainty: TubeUncertainty,
): Generator<MovedRig, void, void> {
  const asked = values;
  const warmer = { ...climate, temperatureC: climate.temperatureC + uncertainty.temperatureC };
  yield { loads: tubes.map((tube) => loadOf(tube, warmer, frequencies)), asked };
  for (const [k, tube] of tubes.entries()) {
    const longer = { ...tube, length: tube.length + uncertainty.length };
    const wider = { ...tube, radius: tube.radius + uncertainty.radius };
    for (const other of [longer, wider])
      yield { loads: loads.with(k, loadOf(other, climate, frequencies)), asked };
    for (const part of [0, 1]) {
      const response = moved(loads[k].response, tube.response.deviation, part);
      yield { loads: loads.with(k, { ...loads[k], response }), asked };
    }
  }
  for (const part of [0, 1]) yield { loads, asked: moved(values, deviation, part) };
}

/** With the real (0) or imaginary (1) part larger by its deviation. */
const moved = (values: Float64Array, deviation: Float64Array, part: number): Float64Array =>
  values.map((value, i) => (i % 2 === part ? value + deviation[(i - part) / 2] : value));

/** One over the other at one frequency. */
function ratio(one: Float64Array, other: Float64Array, i: number): [re: number, im: number] {
  const [aRe, aIm] = [one[2 * i], one[2 * i + 1]];
  const [bRe, bIm] = [other[2 * i], other[2 * i + 1]];
  const size = bRe * bRe + bIm * bIm;
  return [(aRe * bRe + aIm * bIm) / size, (aIm * bRe - aRe * bIm) / size];
}
