/** From the JSON of a setup whose shape is right to a `Setup`: lengths to mm, then whether they make an instrument. */
import type { LengthUnit } from "../../units/length.ts";
import { deepFreeze } from "../deepFreeze.ts";
import type { implausible } from "../dimension/plausible.ts";
import {
  cavityDiameterMm,
  exitBoreMm,
  insertionFlaw,
  profileFlaws,
  profileLengthMm,
  receiverFlaw,
  shankInCavityFlaw,
} from "../geometry.ts";
import { type Problem, pathText, SetupError, valueText } from "../problem.ts";
import {
  type AirConditions,
  type AirConstants,
  type Model,
  type ProfileMm,
  type Setup,
  USUAL_THRESHOLDS,
} from "../setup.ts";
import { fileLengths, valueAt } from "./fileLengths.ts";
import { readUncertainties } from "./readUncertainties.ts";

export interface ReadingOptions {
  /** Unit in which what is wrong is told; the file's own if absent. */
  readonly spoken?: LengthUnit | undefined;
  /** What a setup that is read is refused for. */
  readonly refusing?: typeof implausible;
  /** What is wrong with its shape. */
  readonly problems?: Problem[];
}

/**
 * The setup in JSON of the file's shape, all lengths in mm, deeply frozen. Where that shape is in doubt, ask `readSetup`.
 *
 * @throws {SetupError} with everything that is wrong with it.
 */
export function setupOfShape(
  json: unknown,
  { spoken, refusing = () => [], problems = [] }: ReadingOptions = {},
): Setup {
  const lengths = readLengths(json, problems);
  const unit = spoken ?? (valueAt(json, ["units"]) === "in" ? "in" : "mm");
  checkGeometry(json, lengths, problems, unit);
  if (problems.length > 0) throw new SetupError(problems);
  const setup = build(json as SetupFile, lengths);
  problems.push(...refusing(setup, unit));
  if (problems.length > 0) throw new SetupError(problems);
  const uncertainties = readUncertainties(json, setup, problems);
  if (problems.length > 0) throw new SetupError(problems);
  return deepFreeze({ ...setup, uncertainties });
}

/** A setup file that has passed the schema, less its lengths, which are read apart. */
interface SetupFile {
  readonly name?: string;
  readonly about?: string;
  readonly instrument?: Setup["instrument"];
  readonly units: "mm" | "in";
  readonly air?: Omit<AirConstants, "kind"> | AirConditionsFile;
  readonly mouthpiece: { readonly shankTaper?: number };
  readonly receiver: { readonly taper: number };
  readonly model?: Partial<Model>;
  readonly thresholds?: Partial<Setup["thresholds"]>;
  readonly provenance?: Setup["provenance"];
}

interface AirConditionsFile {
  readonly temperature: number;
  readonly humidity?: number;
  readonly co2?: number;
  readonly pressure?: number;
  readonly breath?: { readonly temperature: number };
}

type Lengths = ReturnType<typeof readLengths>;

function readLengths(json: unknown, problems: Problem[]) {
  const { lengthMmAt, profileMmAt } = fileLengths(json, problems);
  return {
    mouthpiece: profileMmAt("mouthpiece"),
    cupDepthMm: lengthMmAt("mouthpiece", "cupDepth"),
    throatEdgeRadiusMm: lengthMmAt("mouthpiece", "throatEdgeRadius"),
    shankEndDiameterMm: lengthMmAt("mouthpiece", "shankEndDiameter"),
    insertionMm: lengthMmAt("mouthpiece", "insertion"),
    mouthDiameterMm: lengthMmAt("receiver", "mouthDiameter"),
    depthMm: lengthMmAt("receiver", "depth"),
    leadpipe: profileMmAt("leadpipe"),
    body: profileMmAt("body"),
    slideAtMm: lengthMmAt("body", "slideAt"),
    breathReachMm: lengthMmAt("air", "breath", "reach"),
  };
}

/** Adds what is wrong with the lengths. A check whose lengths could not all be read is passed over. */
function checkGeometry(json: unknown, lengths: Lengths, problems: Problem[], unit: LengthUnit): void {
  const refuse = (keys: readonly (string | number)[], message: string) =>
    problems.push({ path: pathText(keys), value: valueAt(json, keys), message });
  /** Says what was written, for messages about one length. */
  const written = (...keys: string[]) => valueText(valueAt(json, keys));

  const goodProfile = (part: "mouthpiece" | "leadpipe" | "body"): ProfileMm | undefined => {
    const profileMm = lengths[part];
    // Shorter than two points: the schema has said so.
    if (profileMm === undefined || profileMm.length < 2) return undefined;
    const flaws = profileFlaws(profileMm, unit);
    for (const { keys, message } of flaws) refuse([part, "profile", ...keys], message);
    return flaws.length === 0 ? profileMm : undefined;
  };
  const positive = (lengthMm: number | undefined, ...keys: string[]): number | undefined => {
    if (lengthMm === undefined || lengthMm > 0) return lengthMm;
    refuse(keys, `${written(...keys)} is not above 0; give a length above 0`);
    return undefined;
  };

  const mouthpiece = goodProfile("mouthpiece");
  goodProfile("leadpipe");
  const body = goodProfile("body");
  const cupDepthMm = positive(lengths.cupDepthMm, "mouthpiece", "cupDepth");
  const shankEndDiameterMm = positive(lengths.shankEndDiameterMm, "mouthpiece", "shankEndDiameter");
  const mouthDiameterMm = positive(lengths.mouthDiameterMm, "receiver", "mouthDiameter");
  const depthMm = positive(lengths.depthMm, "receiver", "depth");
  positive(lengths.breathReachMm, "air", "breath", "reach");
  const { insertionMm, slideAtMm } = lengths;
  const taper = valueAt(json, ["receiver", "taper"]);

  if (mouthpiece && cupDepthMm !== undefined && cupDepthMm >= profileLengthMm(mouthpiece))
    refuse(
      ["mouthpiece", "cupDepth"],
      `${written("mouthpiece", "cupDepth")} is not inside the mouthpiece; give less than its length`,
    );
  const { throatEdgeRadiusMm } = lengths;
  if (throatEdgeRadiusMm !== undefined && throatEdgeRadiusMm < 0)
    refuse(
      ["mouthpiece", "throatEdgeRadius"],
      `${written("mouthpiece", "throatEdgeRadius")} is no radius; give 0 (sharp) or more`,
    );
  if (mouthpiece && shankEndDiameterMm !== undefined && exitBoreMm(mouthpiece) >= shankEndDiameterMm)
    refuse(
      ["mouthpiece", "shankEndDiameter"],
      `${written("mouthpiece", "shankEndDiameter")} leaves no wall around the bore; give more than the last diameter of the profile`,
    );
  if (body && slideAtMm !== undefined && !(slideAtMm >= 0 && slideAtMm <= profileLengthMm(body)))
    refuse(
      ["body", "slideAt"],
      `${written("body", "slideAt")} is not inside the body; give a length from its start, from 0 to the body's length`,
    );

  const badInsertion =
    insertionMm !== undefined && depthMm !== undefined
      ? insertionFlaw(insertionMm, depthMm, unit)
      : undefined;
  if (badInsertion) refuse(["mouthpiece", "insertion"], badInsertion);
  if (mouthDiameterMm === undefined || depthMm === undefined || typeof taper !== "number") return;
  const badReceiver = receiverFlaw(mouthDiameterMm, taper, depthMm, unit);
  if (badReceiver) refuse(["receiver", "taper"], badReceiver);
  if (badInsertion || badReceiver || mouthpiece === undefined || insertionMm === undefined) return;
  const badFit = shankInCavityFlaw(
    exitBoreMm(mouthpiece),
    cavityDiameterMm(mouthDiameterMm, taper, insertionMm),
    unit,
  );
  if (badFit) refuse(["receiver", "mouthDiameter"], badFit);
}

/** The setup, from a file and lengths without problems. */
function build(file: SetupFile, lengths: Lengths): Setup {
  const { cupDepthMm, throatEdgeRadiusMm, shankEndDiameterMm, slideAtMm } = lengths;
  const { shankTaper } = file.mouthpiece;
  return {
    name: file.name ?? "",
    about: file.about ?? "",
    ...(file.instrument !== undefined && { instrument: file.instrument }),
    units: file.units,
    air: buildAir(file.air ?? { temperature: 22 }, lengths.breathReachMm),
    mouthpiece: {
      profileMm: lengths.mouthpiece!,
      ...(cupDepthMm !== undefined && { cupDepthMm }),
      ...(throatEdgeRadiusMm !== undefined && { throatEdgeRadiusMm }),
      ...(shankEndDiameterMm !== undefined && { shankEndDiameterMm }),
      ...(shankTaper !== undefined && { shankTaper }),
      insertionMm: lengths.insertionMm!,
    },
    receiver: {
      mouthDiameterMm: lengths.mouthDiameterMm!,
      taper: file.receiver.taper,
      depthMm: lengths.depthMm!,
    },
    leadpipe: { profileMm: lengths.leadpipe! },
    body: { profileMm: lengths.body!, ...(slideAtMm !== undefined && { slideAtMm }) },
    model: {
      junction: "modal",
      radiation: "unflanged",
      bell: "automatic",
      wallLossFactor: 1,
      ...file.model,
    },
    thresholds: { ...USUAL_THRESHOLDS, ...file.thresholds },
    uncertainties: {},
    provenance: { ...file.provenance },
  };
}

function buildAir(
  air: Omit<AirConstants, "kind"> | AirConditionsFile,
  breathReachMm: number | undefined,
): AirConditions | AirConstants {
  if ("density" in air) return { kind: "constants", ...air };
  const { temperature, humidity = 0.5, co2 = 0.0004, pressure = 101_325, breath } = air;
  return {
    kind: "conditions",
    temperatureC: temperature,
    humidity,
    co2,
    pressurePa: pressure,
    ...(breath !== undefined && {
      breath: { temperatureC: breath.temperature, reachMm: breathReachMm! },
    }),
  };
}
