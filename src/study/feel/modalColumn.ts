/**
 * The air column at one gap as the sum over its resonances that the lips work on, and two terms for what that leaves out. The
 * sum is exact at its poles; |Z| at peaks 1 to 12 is within 0.03 dB, and the peaks' frequencies within 0.2 cents
 * (tests/study/feel/modalColumn.test.ts).
 *
 * At 0 Hz the sum is no measure of anything: a note's residue weighs there as much as all the bore's resistance, and what the
 * stream across a gap gives or takes at the notes' frequencies would move it to and fro. A blown column has there what the
 * still one has, and what the stream adds to the line itself.
 */
import { STATE } from "../../acoustics/duct/twoPort.ts";
import type { Gap } from "../../acoustics/gap/gap.ts";
import { residueOf } from "../../acoustics/resonance/resonances.ts";
import { type Modes, staticResistance } from "../../lips/modes.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { KeptAnswers } from "../keptAnswers.ts";
import { withLeftOut } from "./leftOut.ts";

/** Resonances a modal column has unless asked otherwise. */
export const MODAL_COUNT = 16;

/** Poles jω_n (rad/s) and residues (Pa/m³) at a gap in mm. @throws SetupError on a gap the receiver cannot have */
export const modalColumn = (instrument: Instrument, gapMm: number): Modes =>
  kept.to(instrument, [gapMm], () => computedColumn(instrument, gapMm));

/** A dozen sets of lips are tried on the same few. */
const kept = new KeptAnswers<Instrument, Modes>(16);

/** Low enough for 0 Hz: what a stream adds is the same from here down. */
const STEADY_HZ = 1;

/** Z of the line itself at a gap. */
const lineAt =
  ({ column }: Instrument, gap: Gap) =>
  (hz: number): readonly [re: number, im: number] => {
    const state = new Float64Array(STATE);
    column.rimState(gap, 0, hz, 0, state);
    const size = state[2] * state[2] + state[3] * state[3];
    return [
      (state[0] * state[2] + state[1] * state[3]) / size,
      (state[1] * state[2] - state[0] * state[3]) / size,
    ];
  };

/** Z(0) of a blown column, Pa·s/m³; null in still air, where the sum's own is taken. */
function blownResistance(instrument: Instrument, gapMm: number): number | null {
  const { still } = instrument;
  if (still === instrument) return null;
  const [blown, before] = [instrument, still].map((one) => lineAt(one, one.gap(gapMm))(STEADY_HZ)[0]);
  return staticResistance(modalColumn(still, gapMm)) + blown - before;
}

function computedColumn(instrument: Instrument, gapMm: number): Modes {
  const gap = instrument.gap(gapMm);
  const resonances = instrument.resonances(gapMm);
  const poles = new Float64Array(2 * resonances.length);
  const residues = new Float64Array(2 * resonances.length);
  resonances.forEach((resonance, i) => {
    const [re, im] = residueOf(instrument.column, gap, resonance);
    // f + j·decay in Hz, e^{+jωt}: s = jω
    poles[2 * i] = -2 * Math.PI * resonance.decay;
    poles[2 * i + 1] = 2 * Math.PI * resonance.frequency;
    residues[2 * i] = re;
    residues[2 * i + 1] = im;
  });
  const steady = blownResistance(instrument, gapMm);
  return withoutSource(withLeftOut({ poles, residues }, lineAt(instrument, gap), steady));
}

/**
 * What is left out can leave a resistance a little below 0 at 0 Hz, a column that drives itself. Then the first mode, which
 * no note is played on, has its residue turned until there is none. In between, a few bores keep Re Z down to −0.5 % of the highest peak.
 */
function withoutSource(modes: Modes): Modes {
  const { poles, residues } = modes;
  const resistance = staticResistance(modes);
  if (resistance >= 0) return modes;
  const turned = Float64Array.from(residues);
  // Z(0) = −2 Re Σ Cₙ/sₙ
  turned[1] += (resistance * (poles[0] ** 2 + poles[1] ** 2)) / (2 * poles[1]);
  return { ...modes, residues: turned };
}
