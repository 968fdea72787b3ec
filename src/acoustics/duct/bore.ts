/**
 * From a setup in millimetres to the air column in SI: pieces of cone with their air, between rim and bell.
 *
 * A breath's warmth falls as T(x) = T_room + (T_breath − T_room) e^{−x/reach}; pieces are cut so that none spans more than
 * `WARMTH_STEP`, and each has the air of its middle. Positions behind the gap count from the rim without the gap, so that
 * a moved shank does not change the leadpipe's air.
 */
import { boreDiameterMm, splitProfileMm } from "../../setup/bore/boreDiameter.ts";
import { exitBoreMm, isWall, profileLengthMm } from "../../setup/geometry.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";
import type { Radiation } from "../bell/radiation.ts";
import { type Air, moistAir } from "../medium/air.ts";

/** A cone of constant air; `length` 0 is a step between the radii. */
export interface Piece {
  readonly length: number;
  readonly radiusIn: number;
  readonly radiusOut: number;
  readonly air: Air;
  /** Of a piece without length, in series, Pa·s/m³. */
  readonly resistance?: number;
}

/** Whether two pieces are the same in every number. */
export const isSamePiece = (a: Piece, b: Piece): boolean =>
  a === b ||
  (a.length === b.length &&
    a.radiusIn === b.radiusIn &&
    a.radiusOut === b.radiusOut &&
    a.resistance === b.resistance &&
    (a.air === b.air || isSameAir(a.air, b.air)));

const isSameAir = (a: Air, b: Air): boolean =>
  a.density === b.density &&
  a.soundSpeed === b.soundSpeed &&
  a.viscosity === b.viscosity &&
  a.heatRatio === b.heatRatio &&
  a.prandtl === b.prandtl;

/** The slide's cylinder and how far it may go: `pushMax` m of the same bore can be taken away at most. */
export interface Slide {
  readonly radius: number;
  readonly air: Air;
  readonly pushMax: number;
}

export interface Bore {
  readonly mouthpiece: readonly Piece[];
  readonly shankExit: number;
  readonly receiver: { readonly mouthRadius: number; readonly radiusTaper: number; readonly depth: number };
  /** Air in the gap. */
  readonly gapAir: Air;
  /** Leadpipe, its joint with the body, and the body as far as the slide. */
  readonly upper: readonly Piece[];
  readonly leadpipeMouth: number;
  readonly slide: Slide | null;
  readonly lower: readonly Piece[];
  readonly bellRadius: number;
  readonly bellAir: Air;
  readonly wallLossFactor: number;
  readonly junction: "modal" | "plane";
  readonly radiation: Radiation;
  readonly bell: "plane" | "multimodal";
}

/** Rim to bell without the gap, m. */
export const boreLength = ({ mouthpiece, upper, lower }: Bore): number =>
  [...mouthpiece, ...upper, ...lower].reduce((sum, piece) => sum + piece.length, 0);

const MM = 1e-3;
/** K. A tenth of a cent at most between neighbours. */
const WARMTH_STEP = 0.1;

/** What of a bore the model has no part in: pieces and their air. */
type Ducts = Omit<Bore, "wallLossFactor" | "junction" | "radiation" | "bell">;

/** What each body was last asked with. */
const last = new WeakMap<Setup["body"], { readonly setup: Setup; readonly ducts: Ducts }>();

const hasSameDucts = (a: Setup, b: Setup): boolean =>
  a.mouthpiece.profileMm === b.mouthpiece.profileMm &&
  a.receiver === b.receiver &&
  a.leadpipe === b.leadpipe &&
  a.body === b.body &&
  a.air === b.air;

/**
 * The air column of a setup in SI: cones, steps and cylinders with the air in each.
 * @param setup a validated setup; its gap is not used, `Line` takes any
 */
export function boreOf(setup: Setup): Bore {
  const known = last.get(setup.body);
  const ducts = known && hasSameDucts(known.setup, setup) ? known.ducts : ductsOf(setup);
  last.set(setup.body, { setup, ducts });
  const { wallLossFactor, junction, radiation, bell } = setup.model;
  return { ...ducts, wallLossFactor, junction, radiation, bell: bell === "plane" ? "plane" : "multimodal" };
}

function ductsOf(setup: Setup): Ducts {
  const airAt = airAlong(setup);
  const mouthpiece = pieces(setup.mouthpiece.profileMm, 0, airAt);
  const mouthpieceEnd = lengthOf(setup.mouthpiece.profileMm);
  const leadpipe = pieces(setup.leadpipe.profileMm, mouthpieceEnd, airAt);
  const leadpipeEnd = mouthpieceEnd + lengthOf(setup.leadpipe.profileMm);
  const { profileMm, slideAtMm } = setup.body;
  const [above, below] = slideAtMm === undefined ? [[], profileMm] : splitProfileMm(profileMm, slideAtMm);
  const bodyUpper = above.length > 1 ? pieces(above, leadpipeEnd, airAt) : [];
  const slideX = leadpipeEnd + (slideAtMm === undefined ? 0 : (slideAtMm - profileMm[0][0]) * MM);
  const lower = below.length > 1 ? pieces(below, slideX, airAt) : [];
  const leadpipeExit = leadpipe[leadpipe.length - 1].radiusOut;
  const bodyEntry = (profileMm[0][1] / 2) * MM;
  const joint = step(leadpipeExit, bodyEntry, airAt(leadpipeEnd));
  const upper = [...leadpipe, ...joint, ...bodyUpper];
  return {
    mouthpiece,
    shankExit: mouthpiece[mouthpiece.length - 1].radiusOut,
    receiver: {
      mouthRadius: (setup.receiver.mouthDiameterMm / 2) * MM,
      radiusTaper: setup.receiver.taper / 2,
      depth: setup.receiver.depthMm * MM,
    },
    gapAir: airAt(mouthpieceEnd),
    upper,
    leadpipeMouth: leadpipe[0].radiusIn,
    slide:
      slideAtMm === undefined
        ? null
        : {
            radius: (boreDiameterMm(profileMm, slideAtMm) / 2) * MM,
            air: airAt(slideX),
            pushMax: cylinderAround(profileMm, slideAtMm) * MM,
          },
    lower,
    bellRadius: (exitBoreMm(profileMm) / 2) * MM,
    bellAir: (lower.at(-1) ?? upper.at(-1)!).air,
  };
}

const lengthOf = (profile: ProfileMm): number => profileLengthMm(profile) * MM;

type AirAt = (x: number) => Air;

function airAlong({ air }: Setup): AirAt & { warmth?: (x: number) => number } {
  if (air.kind === "constants") return () => air;
  const { temperatureC, breath } = air;
  const room = moistAir(air);
  if (!breath) return () => room;
  const known = new Map<number, Air>();
  const warmth = (x: number) => (breath.temperatureC - temperatureC) * Math.exp(-x / (breath.reachMm * MM));
  const at = (x: number): Air => {
    // neighbours of the same warmth share their air
    const t = temperatureC + Math.round(warmth(x) / WARMTH_STEP) * WARMTH_STEP;
    const found = known.get(t);
    if (found) return found;
    const made = moistAir({ ...air, temperatureC: t });
    known.set(t, made);
    return made;
  };
  return Object.assign(at, { warmth });
}

/** A profile's cones and steps, from position `x` m behind the rim. */
function pieces(profile: ProfileMm, x: number, airAt: AirAt & { warmth?: (x: number) => number }): Piece[] {
  const out: Piece[] = [];
  const start = profile[0][0];
  for (let i = 1; i < profile.length; i++) {
    const from = x + (profile[i - 1][0] - start) * MM;
    const length = (profile[i][0] - profile[i - 1][0]) * MM;
    const a = (profile[i - 1][1] / 2) * MM;
    const b = (profile[i][1] / 2) * MM;
    if (isWall(profile[i - 1], profile[i])) {
      const air = airAt(from + length / 2);
      out.push(...step(a, b, air));
      // what a cone this steep would be is lost in rounding
      if (length > 0) out.push({ length, radiusIn: b, radiusOut: b, air });
      continue;
    }
    const drop = airAt.warmth ? Math.abs(airAt.warmth(from) - airAt.warmth(from + length)) : 0;
    const parts = Math.max(1, Math.ceil(drop / WARMTH_STEP));
    for (let k = 0; k < parts; k++)
      out.push({
        length: length / parts,
        radiusIn: a + ((b - a) * k) / parts,
        radiusOut: a + ((b - a) * (k + 1)) / parts,
        air: airAt(from + ((k + 0.5) * length) / parts),
      });
  }
  return out;
}

const step = (radiusIn: number, radiusOut: number, air: Air): Piece[] =>
  radiusIn === radiusOut ? [] : [{ length: 0, radiusIn, radiusOut, air }];

/** Length of the cylinder a slide at `at` stands in, on both sides together, mm. */
function cylinderAround(profile: ProfileMm, at: number): number {
  const d = boreDiameterMm(profile, at);
  let low = at;
  let high = at;
  for (let i = 1; i < profile.length; i++) {
    const [x0, d0] = profile[i - 1];
    const [x1, d1] = profile[i];
    if (d0 !== d || d1 !== d || x1 < low || x0 > high) continue;
    low = Math.min(low, x0);
    high = Math.max(high, x1);
  }
  return high - low;
}
