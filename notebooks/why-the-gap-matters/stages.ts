/** From a tube to a trumpet: the demo's bore put together part by part, each stage an instrument of its own. */
import type { ProfileMm, Setup } from "../../src/setup/setup.ts";
import { Instrument, type Mode } from "../../src/study/instrument/instrument.ts";
import { commonFundamental } from "../../src/study/instrument/modeTable.ts";
import { cents } from "../../src/study/instrument/pitch.ts";
import { demo } from "../paper/demo.ts";

/** Bore of the plain tube, mm: the demo's own where it is a cylinder. */
const boreMm = demo.body.profileMm[0][1];
const bodyLengthMm = lengthMm(demo.body.profileMm);
/** Of the tube that takes the leadpipe's and the mouthpiece's place, mm. */
const headLengthMm = lengthMm(demo.leadpipe.profileMm) + lengthMm(demo.mouthpiece.profileMm);
/** Rim to bell of the whole instrument without its gap, mm. */
export const wholeLengthMm = bodyLengthMm + headLengthMm;

/** A plain tube of this length, closed by the player's lips at one end and open at the other. */
export const tube = (lengthMm: number): Setup =>
  withoutMouthpiece(lengthMm - bodyLengthMm / 2, [
    [0, boreMm],
    [bodyLengthMm / 2, boreMm],
  ]);

/**
 * The tube with a bell grown out of its end, its length unchanged.
 * @param share of the demo's bell: 0 none, 1 whole; widening in proportion to the logarithm in between
 */
export const tubeWithBell = (share: number): Setup =>
  withoutMouthpiece(
    headLengthMm,
    demo.body.profileMm.map(([x, d]) => [x, boreMm * (d / boreMm) ** share] as const),
  );

/** A cylinder before a body; the receiver is there in name only, its gap closed. */
function withoutMouthpiece(cylinderMm: number, body: ProfileMm): Setup {
  const startMm = 50;
  const depthMm = 20;
  return {
    ...demo,
    mouthpiece: {
      profileMm: [
        [0, boreMm],
        [startMm, boreMm],
      ],
      insertionMm: depthMm,
    },
    receiver: { mouthDiameterMm: boreMm + 2, taper: 0, depthMm },
    leadpipe: {
      profileMm: [
        [0, boreMm],
        [cylinderMm - startMm, boreMm],
      ],
    },
    body: { profileMm: body },
  };
}

/** The demo with its cup made deeper or shallower, all behind it as it is. */
export function withCup(times: number): Setup {
  const { mouthpiece } = demo;
  const depthMm = mouthpiece.cupDepthMm!;
  const profileMm = mouthpiece.profileMm.map(
    ([x, d]) => [x <= depthMm ? x * times : x + (times - 1) * depthMm, d] as const,
  );
  return { ...demo, mouthpiece: { ...mouthpiece, profileMm, cupDepthMm: depthMm * times } };
}

export interface Stage {
  /** Hz */
  readonly frequencies: Float64Array;
  /** |Z|, Pa·s/m³ */
  readonly magnitude: Float64Array;
  readonly modes: readonly Mode[];
}

const points = 700;
export const shownHz = [40, 1200] as const;

/** |Z| against frequency and the resonances of a stage, its gap closed unless one is given. */
export function stageOf(setup: Setup, gapMm = 0): Stage {
  const [low, high] = shownHz;
  const instrument = new Instrument(setup, { modes: 10, curveHz: shownHz });
  const frequencies = Float64Array.from(
    { length: points },
    (_, i) => low + ((high - low) * i) / (points - 1),
  );
  const { column } = instrument;
  const { re, im } = column.curve(column.grid(frequencies), instrument.gap(gapMm));
  return {
    frequencies,
    magnitude: re.map((x, i) => Math.hypot(x, im[i])),
    modes: instrument.modes(gapMm),
  };
}

/** How far each resonance lies from the harmonic series that fits resonances 2 to 10 best: f_n/n against it, cents. */
export function fromSeries(modes: readonly Mode[]): number[] {
  const fundamental = commonFundamental(modes);
  return modes.map(({ n, frequencyHz }) => cents(frequencyHz / n, fundamental));
}

/** Largest distance between resonances 2 to 10 and their series, cents. */
export const worstFromSeries = (modes: readonly Mode[]): number =>
  Math.max(...fromSeries(modes).slice(1).map(Math.abs));

function lengthMm(profile: ProfileMm): number {
  return profile[profile.length - 1][0] - profile[0][0];
}
