/** What a leadpipe is to be designed for and within which limits, as typed; or what is wrong with each text. */
import type { DesignQuestion, LikeVariant } from "../../../../workers/compare.ts";
import { exitBoreMm } from "../../../setup/geometry.ts";
import type { Setup } from "../../../setup/setup.ts";
import { type DesignGoal, parseDesignGoal } from "../../../study/design/designGoal.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { InputError } from "../../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import { number, readQuantity } from "../../form/quantity.ts";
import { shownGaps } from "../../state/gapLimits.ts";
import type { DesignNotes, DesignPart } from "../../state/notes/compare.ts";

export interface DesignReading {
  readonly problems: Readonly<Partial<Record<DesignPart, string>>>;
  /** null while something asked for is missing or wrong. */
  readonly options: DesignQuestion | null;
  /** Between stations of the mandrel. */
  readonly everyMm: number;
}

const WHOLE = {
  knots: { usual: 6, least: 4, most: 20 },
  starts: { usual: 3, least: 1, most: 20 },
} as const;
/** A diameter off by this much, to either side of the present bore, is where a search may go: own choice, no source. */
const LEEWAY_MM = 1;
const USUAL_EVERY_MM = 10;

/** What stands for an empty text. */
export function usualLimits(setup: Setup) {
  const { profileMm } = setup.leadpipe;
  const { leastMm, mostMm } = shownGaps(setup);
  const diameters = profileMm.map(([, d]) => d);
  return {
    smallestMm: Math.max(1, Math.min(...diameters) - LEEWAY_MM),
    largestMm: Math.max(exitBoreMm(profileMm), ...diameters) + LEEWAY_MM,
    everyMm: USUAL_EVERY_MM,
    knots: WHOLE.knots.usual,
    starts: WHOLE.starts.usual,
    narrowestGapMm: leastMm,
    widestGapMm: mostMm,
  };
}

/** @param like what it is to equal instead of the typed goal; null where there is none */
export function readDesign(
  design: DesignNotes,
  setup: Setup,
  unit: LengthUnit,
  like: LikeVariant | null = null,
): DesignReading {
  const problems: Partial<Record<DesignPart, string>> = {};
  const usual = usualLimits(setup);
  type Length = "smallest" | "largest" | "every" | "narrowestGap" | "widestGap";
  const length = (part: Length, usualMm: number): number => {
    const isGap = part === "narrowestGap" || part === "widestGap";
    const text = design[part].trim();
    if (text === "") return usualMm;
    try {
      const lengthMm = parseLengthMm(text, unit);
      if (lengthMm > 0 || (isGap && lengthMm === 0)) return lengthMm;
      problems[part] =
        `${formatLength(lengthMm, unit)} cannot be; give ${isGap ? "0 or a length above it" : "a length above 0"}.`;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems[part] = error.message;
    }
    return usualMm;
  };
  const whole = (part: "knots" | "starts"): number => {
    const { usual: fallback, least, most } = WHOLE[part];
    if (design[part].trim() === "") return fallback;
    const found = readQuantity(design[part], number, { least, most });
    if ("value" in found && Number.isInteger(found.value)) return found.value;
    problems[part] = "refused" in found ? found.refused : `Give a whole number from ${least} to ${most}.`;
    return fallback;
  };
  /** Between which the gap may be chosen. */
  const gaps = (): readonly [number, number] => {
    const [leastMm, mostMm] = [usual.narrowestGapMm, setup.receiver.depthMm];
    const low = length("narrowestGap", usual.narrowestGapMm);
    const high = length("widestGap", usual.widestGapMm);
    const said = (mm: number) => formatLength(mm, unit);
    if (low < leastMm) problems.narrowestGap ??= `The shank stops at ${said(leastMm)}; give that or more.`;
    if (high > mostMm) problems.widestGap ??= `The receiver is ${said(mostMm)} deep; give that or less.`;
    if (high <= low) problems.widestGap ??= `Give more than the narrowest, ${said(low)}.`;
    return [low, high];
  };
  const limits = {
    knots: whole("knots"),
    holdsEntry: design.holdsEntry,
    holdsEnd: design.holdsEnd,
    smallestMm: length("smallest", usual.smallestMm),
    largestMm: length("largest", usual.largestMm),
    widens: design.widens,
    leastCurvatureRadiusMm: 0,
    gapMm: design.movesGap ? gaps() : null,
  };
  const restarts = whole("starts");
  const everyMm = length("every", usual.everyMm);
  let goal: DesignGoal | null = null;
  try {
    if (design.goal.trim() !== "" && design.like === null) goal = parseDesignGoal(design.goal);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    problems.goal = error.message;
  }
  const { every: _, ...ofDesign } = problems;
  const wanted = design.like === null ? goal : like;
  const isReady = wanted !== null && Object.keys(ofDesign).length === 0;
  return { problems, options: isReady ? { goal: wanted, limits, restarts } : null, everyMm };
}
