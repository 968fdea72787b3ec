/** What a leadpipe is to be designed for and within which limits, as typed; or what is wrong with each text. */
import type { DesignQuestion, LikeVariant } from "../../../../workers/instrument/compare.ts";
import type { Setup } from "../../../setup/setup.ts";
import { DESIGN_DEFAULTS, usualLimits } from "../../../study/design/designDefaults.ts";
import { parseDesignGoal } from "../../../study/design/designGoal.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { readFields, reading } from "../../form/field.ts";
import { DESIGN_FIELDS, DESIGN_GAP_FIELDS, type DesignNotes, type DesignPart } from "../notes/compare.ts";

export interface DesignReading {
  readonly problems: Readonly<Partial<Record<DesignPart, string>>>;
  /** null while something asked for is missing or wrong. */
  readonly options: DesignQuestion | null;
}

/** @param like what it is to equal instead of the typed goal; null where there is none */
export function readDesign(
  design: DesignNotes,
  setup: Setup,
  unit: LengthUnit,
  like: LikeVariant | null = null,
): DesignReading {
  const usual = usualLimits(setup);
  const { values, problems: ofTexts } = readFields(DESIGN_FIELDS, design, unit);
  const gap = design.movesGap ? readGaps(design, setup, unit) : null;
  const goal = design.like === null && values.goal ? reading(() => parseDesignGoal(design.goal)) : null;
  const problems = { ...ofTexts, ...gap?.problems, ...(goal?.problem && { goal: goal.problem }) };
  const wanted = design.like === null ? goal?.value : like;
  if (!wanted || Object.keys(problems).length > 0) return { problems, options: null };
  const limits = {
    knots: values.knots!,
    holdsEntry: design.holdsEntry,
    holdsEnd: design.holdsEnd,
    smallestMm: values.smallest ?? usual.smallestMm,
    largestMm: values.largest ?? usual.largestMm,
    widens: design.widens,
    leastCurvatureRadiusMm: DESIGN_DEFAULTS.leastCurvatureRadiusMm,
    gapMm: gap?.limitsMm ?? null,
  };
  return { problems, options: { goal: wanted, limits, restarts: values.starts! } };
}

/** Between which the gap may be chosen. */
function readGaps(design: DesignNotes, setup: Setup, unit: LengthUnit) {
  const { leastMm, mostMm } = usualLimits(setup).gap;
  const { values, problems: ofTexts } = readFields(DESIGN_GAP_FIELDS, design, unit);
  const { narrowestGap = leastMm, widestGap = mostMm } = values;
  const problems = { ...ofTexts };
  const said = (mm: number) => formatLength(mm, unit);
  if (narrowestGap < leastMm)
    problems.narrowestGap ??= `The shank stops at ${said(leastMm)}; give that or more.`;
  if (widestGap > setup.receiver.depthMm)
    problems.widestGap ??= `The receiver is ${said(setup.receiver.depthMm)} deep; give that or less.`;
  if (widestGap <= narrowestGap)
    problems.widestGap ??= `Give more than the narrowest, ${said(narrowestGap)}.`;
  return { problems, limitsMm: [narrowestGap, widestGap] as const };
}
