/**
 * How hard one setup blows: the steady pressure that drives a steady flow from the rim to the room, part by part.
 *
 * Resistance here is always that pressure over that flow. It is not what the lips ask for: their opening drops kilopascals
 * where the whole bore drops fractions of one, and their threshold pressure is another question.
 *
 * A part's loss is of the stream's power over its flow. The throat's is that of a stream that enters it flat (`entrance.ts`), and
 * what it then carries more than a flat one goes with the widening of the backbore behind. How sharp the throat's edge is, and
 * where the gap's jet goes, nobody measures: those have bounds.
 */

import { developing } from "../../flow/entrance.ts";
import { type Regime, regimeOf, reynoldsNumber, turbulentPart } from "../../flow/friction.ts";
import { type Bounded, gapLoss } from "../../flow/gapLoss.ts";
import { type Cone, dynamicPressure, type PipeLoss, pipeLoss, speedThrough } from "../../flow/pipe.ts";
import { throatEdgeLoss } from "../../flow/throatEdge.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { type FlowPath, flowPath, gapShape } from "./flowPath.ts";

export type PartName = "cup" | "throat" | "backbore" | "gap" | "leadpipe" | "body" | "bell";

/** One part's share of the pressure; the gap's by its estimate, the bell's what the stream still carries into the room. */
export interface PartDrop {
  readonly part: PartName;
  readonly entryMm: number;
  readonly exitMm: number;
  /** Lowest and highest Reynolds number in it. */
  readonly reynolds: readonly [low: number, high: number];
  /** From the one to the other. */
  readonly regimes: readonly [Regime, Regime];
  readonly frictionPa: number;
  readonly areaChangePa: number;
  readonly dropPa: number;
  /** From the rounded edge, or the caught jet, to the sharp one, or the lost jet; both the drop where no edge decides. */
  readonly boundsPa: readonly [low: number, high: number];
  /** Of the whole by its estimate, 0 to 1. */
  readonly share: number;
}

/** What the jet meets at the leadpipe's mouth. */
export type Edge = "faces the air flow" | "stands outside the air flow" | "is flush";

export interface Resistance {
  readonly gapMm: number;
  readonly litresPerMinute: number;
  readonly parts: readonly PartDrop[];
  /** The jet across the gap: all of it caught, as it spreads, none of it caught. */
  readonly gap: { readonly edge: Edge; readonly dropPa: Bounded; readonly share: Bounded };
  /** What rests on how sharp the throat's edge is, Pa; `isMeasured` where the setup says. */
  readonly throatEdge: { readonly dropPa: Bounded; readonly isMeasured: boolean };
  /** Rim to room, with the three figures of both. */
  readonly dropPa: Bounded;
  /** Drop over flow, Pa·s/m³; null without flow. */
  readonly resistance: Bounded | null;
  /** Speed in the narrowest place over that of sound. */
  readonly mach: number;
}

/** Below 1/2 the compressibility left out (M²/4 of the dynamic pressure) stays under 6 %. */
const HIGHEST_MACH = 0.5;
const LITRE_PER_MINUTE = 1e-3 / 60;

/** m³/s */
export const flowOf = (litresPerMinute: number): number => litresPerMinute * LITRE_PER_MINUTE;

export interface ResistanceOptions {
  /** The setup's own if absent. */
  readonly gapMm?: number;
  readonly litresPerMinute?: number;
}

/**
 * @throws SetupError on a gap the receiver cannot have
 * @throws OutOfRange on a flow below zero, or too fast for air to be taken as incompressible
 */
export function resistance(setup: Setup, options: ResistanceOptions = {}): Resistance {
  const { gapMm = ownGapMm(setup), litresPerMinute = 20 } = options;
  const path = flowPath(setup);
  const { air, pipes } = path;
  const shape = gapShape(setup, gapMm);
  const mach = checkedMach(path, shape.leadpipe, litresPerMinute);
  const flow = flowOf(litresPerMinute);

  const kinematicViscosity = air.viscosity / air.density;
  const gap = gapLoss(shape, air, flow);
  const { throat, edge, kineticFactor } = mouthpieceLoss(path, flow);
  const cup = { friction: pipeLoss(pipes.cup, air, flow).friction, areaChange: edge.estimate };
  const fromThroat = pipeLoss(pipes.backbore, air, flow);
  const backbore = { ...fromThroat, areaChange: kineticFactor * fromThroat.areaChange };
  // the jet across the gap begins anew
  const leadpipe = pipeLoss(pipes.leadpipe, air, flow);
  const body = pipeLoss(pipes.body, air, flow, leadpipe.runStart);
  const bellRadius = pipes.body[pipes.body.length - 1].radiusOut;
  const bell = dynamicPressure(flow, bellRadius, air.density);

  const rest = [throat, backbore, leadpipe, body].reduce(
    (sum, loss) => sum + total(loss),
    bell + cup.friction,
  );
  const whole = bounded((figure) => rest + edge[figure] + gap[figure]);
  const part = (name: PartName, radii: readonly number[], loss: Lost, doubt?: Bounded): PartDrop => {
    const low = reynoldsNumber(flow, Math.max(...radii), kinematicViscosity);
    const high = reynoldsNumber(flow, Math.min(...radii), kinematicViscosity);
    const sure = loss.friction + loss.areaChange - (doubt?.estimate ?? 0);
    return {
      part: name,
      entryMm: 2000 * radii[0],
      exitMm: 2000 * radii[radii.length - 1],
      reynolds: [low, high],
      regimes: [regimeOf(low), regimeOf(high)],
      frictionPa: loss.friction,
      areaChangePa: loss.areaChange,
      dropPa: total(loss),
      boundsPa: [sure + (doubt?.lower ?? 0), sure + (doubt?.upper ?? 0)],
      share: ratio(total(loss), whole.estimate),
    };
  };
  const shankExit = [shape.shankExit];
  const throatEntry = [pipes.cup.at(-1)?.radiusOut ?? pipes.throat[0]?.radiusIn ?? shape.shankExit];
  const backboreEntry = [pipes.throat.at(-1)?.radiusOut ?? throatEntry[0]];
  return {
    gapMm,
    litresPerMinute,
    parts: [
      part("cup", radiiOf(pipes.cup, throatEntry), cup, edge),
      part("throat", radiiOf(pipes.throat, throatEntry), throat),
      part("backbore", radiiOf(pipes.backbore, backboreEntry), backbore),
      part("gap", [...shankExit, shape.leadpipe], { friction: 0, areaChange: gap.estimate }, gap),
      part("leadpipe", radiiOf(pipes.leadpipe, []), leadpipe),
      part("body", radiiOf(pipes.body, []), body),
      part("bell", [bellRadius], { friction: 0, areaChange: bell }),
    ],
    gap: {
      edge: edgeOf(shape.shankExit, shape.leadpipe),
      dropPa: gap,
      // least beside the throat's edge at its most, and the other way round
      share: {
        lower: ratio(gap.lower, rest + edge.upper + gap.lower),
        estimate: ratio(gap.estimate, whole.estimate),
        upper: ratio(gap.upper, rest + edge.lower + gap.upper),
      },
    },
    throatEdge: { dropPa: edge, isMeasured: path.throatEdge.radius !== null },
    dropPa: whole,
    resistance: flow > 0 ? bounded((figure) => whole[figure] / flow) : null,
    mach,
  };
}

/** The same at several flows: what a curve of pressure against flow is drawn from. */
export const resistanceCurve = (
  setup: Setup,
  litresPerMinute: readonly number[],
  gapMm = ownGapMm(setup),
): Resistance[] => litresPerMinute.map((flow) => resistance(setup, { gapMm, litresPerMinute: flow }));

/** One number a figure. */
export const bounded = (of: (figure: keyof Bounded) => number): Bounded => ({
  lower: of("lower"),
  estimate: of("estimate"),
  upper: of("upper"),
});

type Lost = Pick<PipeLoss, "friction" | "areaChange">;

const total = ({ friction, areaChange }: Lost): number => friction + areaChange;

/** The stream's way through the throat: what it loses there, at its edge, Pa, and how uneven it leaves. */
function mouthpieceLoss(
  { air, pipes, throatEdge }: FlowPath,
  flow: number,
): { throat: Lost; edge: Bounded; kineticFactor: number } {
  const radius = throatEdge.diameter / 2;
  const reynolds = reynoldsNumber(flow, radius, air.viscosity / air.density);
  const turbulent = turbulentPart(reynolds);
  const dynamic = dynamicPressure(flow, radius, air.density);
  const coefficient = throatEdgeLoss(throatEdge, turbulent);
  const edge = bounded((figure) => dynamic * coefficient[figure]);
  const length = pipes.throat.reduce((sum, cone) => sum + cone.length, 0);
  if (length === 0 || flow === 0) return { throat: { friction: 0, areaChange: 0 }, edge, kineticFactor: 1 };
  const entering = developing(length / throatEdge.diameter, reynolds);
  const even = pipeLoss(pipes.throat, air, flow);
  return {
    // far on, where a turbulent stream has become even, it rubs more than a laminar one that still grows
    throat: { friction: Math.max(dynamic * entering.loss, even.friction), areaChange: even.areaChange },
    edge,
    kineticFactor: 1 + (1 - turbulent) * (entering.kineticFactor - 1),
  };
}

const ratio = (part: number, whole: number): number => (whole > 0 ? part / whole : 0);

const radiiOf = (cones: readonly Cone[], without: readonly number[]): readonly number[] =>
  cones.length === 0 ? without : [cones[0].radiusIn, ...cones.map(({ radiusOut }) => radiusOut)];

const edgeOf = (shankExit: number, leadpipe: number): Edge =>
  leadpipe < shankExit
    ? "faces the air flow"
    : leadpipe > shankExit
      ? "stands outside the air flow"
      : "is flush";

function checkedMach({ air, pipes }: FlowPath, leadpipe: number, litresPerMinute: number): number {
  if (!(litresPerMinute >= 0 && litresPerMinute < Infinity))
    throw new OutOfRange(
      `a flow of ${litresPerMinute} L/min cannot be computed: give 0 or more, usually 5 to 60`,
    );
  const narrowest = Object.values(pipes)
    .flat()
    .reduce((least, { radiusIn, radiusOut }) => Math.min(least, radiusIn, radiusOut), leadpipe);
  const mach = speedThrough(flowOf(litresPerMinute), narrowest) / air.soundSpeed;
  if (mach <= HIGHEST_MACH) return mach;
  const most = (litresPerMinute * HIGHEST_MACH) / mach;
  throw new OutOfRange(
    `${litresPerMinute} L/min is too fast for a bore of ${(2000 * narrowest).toFixed(2)} mm: ` +
      `above ${most.toPrecision(3)} L/min the air there no longer flows as if it could not be compressed`,
  );
}
