/**
 * Whether a setup that makes sense line by line is an instrument at all: what is refused, and what is taken with a warning.
 * The ranges and their reasons stand in `plausibleLimits.ts`. Each finding is one line with its place in the file.
 */
import type { LengthUnit } from "../../units/length.ts";
import { cavityDiameterMm, exitBoreMm, isWall, profileLengthMm } from "../geometry.ts";
import { type Problem, pathText } from "../problem.ts";
import type { ProfileMm, Setup } from "../setup.ts";
import { type Range, REFUSED, SLIP, USUAL } from "./plausibleLimits.ts";

const PARTS = ["mouthpiece", "leadpipe", "body"] as const;
type Part = (typeof PARTS)[number];
type Keys = readonly (string | number)[];
type Say = (keys: Keys, value: number, message: string) => void;

const MM_PER_INCH = 25.4;
/** A length as a person would write it down: four figures, and as many noughts as it takes to see what was given. */
const size = (lengthMm: number, unit: LengthUnit): string =>
  `${Number((unit === "mm" ? lengthMm : lengthMm / MM_PER_INCH).toPrecision(4))} ${unit}`;
const isIn = (value: number, { least, most }: Range): boolean => value >= least && value <= most;

/**
 * What makes a setup no instrument; empty for one that is.
 * @param unit in which it is told
 */
export function implausible(setup: Setup, unit: LengthUnit): Problem[] {
  const { problems, say } = collecting();
  const { mouthpiece, receiver, leadpipe, body } = setup;
  const length = lengthCheck(say, unit, "cannot be: give");
  diameters(setup, (part, i, diameterMm, profileMm) => {
    const range = part === "body" ? REFUSED.diameter : REFUSED.narrowPart;
    if (isIn(diameterMm, range)) return;
    const slip = slipOf(profileMm, i, part === "body");
    say(
      [part, "profile", i, 1],
      diameterMm,
      `a diameter of ${size(diameterMm, unit)} cannot be: ${slip ? slipText(diameterMm, slip, unit) : `give ${rangeText(diameterMm, range, unit)}`}`,
    );
  });
  // one finding a part: the others follow from the same slip
  if (problems.length > 0) return firstOfEachPart(problems);
  length(
    ["mouthpiece", "profile"],
    "length",
    profileLengthMm(mouthpiece.profileMm),
    REFUSED.mouthpieceLength,
  );
  length(["leadpipe", "profile"], "length", profileLengthMm(leadpipe.profileMm), REFUSED.leadpipeLength);
  length(["body", "profile"], "length", profileLengthMm(body.profileMm), REFUSED.bodyLength);
  if (problems.length === 0)
    length(["body", "profile"], "whole length, rim to bell,", wholeLengthMm(setup), REFUSED.wholeLength);
  length(["receiver", "depth"], "depth", receiver.depthMm, REFUSED.receiverDepth);
  length(["receiver", "mouthDiameter"], "diameter", receiver.mouthDiameterMm, REFUSED.receiverWidth);
  steps(setup, (keys, ratio, text) => {
    if (ratio <= REFUSED.stepRatio.most) return;
    say(keys, ratio, `${text(unit)}: ${ratioText(ratio, REFUSED.stepRatio)}`);
  });
  const cavity = cavityRatio(setup);
  if (cavity.ratio > REFUSED.cavityRatio.most)
    say(cavity.keys, cavity.ratio, `${cavity.text(unit)}: ${ratioText(cavity.ratio, REFUSED.cavityRatio)}`);
  const points = PARTS.reduce((sum, part) => sum + setup[part].profileMm.length, 0);
  if (points > REFUSED.points.most)
    say(
      ["body", "profile"],
      points,
      `${points} points in the three profiles together; give at most ${REFUSED.points.most}`,
    );
  const restless = PARTS.map((part) => ({ part, ups: upsAndDowns(setup[part].profileMm) }));
  const ups = restless.reduce((sum, one) => sum + one.ups, 0);
  if (ups > REFUSED.ups.most) {
    const { part } = restless.reduce((a, b) => (b.ups > a.ups ? b : a));
    say(
      [part, "profile"],
      ups,
      `the bore widens and narrows by a factor of e ${ups.toFixed(0)} times over, more than ${REFUSED.ups.most}: a row of chambers, not an instrument; give a smoother profile`,
    );
  }
  return problems;
}

/** What makes a kept setup no instrument, in its own units; of one that was read from a file nothing. */
export const flawsOf = remembering((setup) => implausible(setup, setup.units));

/** What is unusual about a setup, in its own units; empty where all is as in instruments in use. */
export const warningsOf = remembering((setup) => unusual(setup, setup.units));

function remembering(find: (setup: Setup) => readonly Problem[]): (setup: Setup) => readonly Problem[] {
  const known = new WeakMap<Setup, readonly Problem[]>();
  return (setup) => {
    const found = known.get(setup) ?? find(setup);
    known.set(setup, found);
    return found;
  };
}

/** A warning as it is read everywhere: `leadpipe.profile: …`. */
export const warningText = ({ path, message }: Problem): string => `${path}: ${message}`;

function unusual(setup: Setup, unit: LengthUnit): Problem[] {
  const { problems, say } = collecting();
  const { mouthpiece, receiver, leadpipe } = setup;
  const length = lengthCheck(say, unit, "is unusual: usual is");
  diameters(setup, (part, i, diameterMm, profileMm) => {
    const slip = slipOf(profileMm, i, part === "body");
    if (slip)
      say(
        [part, "profile", i, 1],
        diameterMm,
        `a diameter of ${size(diameterMm, unit)} is 25.4 times out of line with its neighbours: ${slipText(diameterMm, slip, unit)}`,
      );
  });
  if (problems.length > 0) return problems;
  for (const part of PARTS) {
    const range = part === "leadpipe" ? USUAL.leadpipeWidth : USUAL.diameter;
    const { profileMm } = setup[part];
    for (const extreme of [narrowestOf(profileMm), widestOf(profileMm)])
      length([part, "profile", extreme, 1], "diameter", profileMm[extreme][1], range);
  }
  const cup = widestOf(mouthpiece.profileMm);
  const cupMm = mouthpiece.profileMm[cup][1];
  if (isIn(cupMm, USUAL.diameter))
    length(["mouthpiece", "profile", cup, 1], "cup diameter", cupMm, USUAL.cup);
  length(["mouthpiece", "profile"], "length", profileLengthMm(mouthpiece.profileMm), USUAL.mouthpieceLength);
  length(["leadpipe", "profile"], "length", profileLengthMm(leadpipe.profileMm), USUAL.leadpipeLength);
  length(["body", "profile"], "whole length, rim to bell,", wholeLengthMm(setup), USUAL.wholeLength);
  if (mouthpiece.cupDepthMm !== undefined)
    length(["mouthpiece", "cupDepth"], "cup depth", mouthpiece.cupDepthMm, USUAL.cupDepth);
  length(["receiver", "depth"], "depth", receiver.depthMm, USUAL.receiverDepth);
  const gapMm = receiver.depthMm - mouthpiece.insertionMm;
  if (gapMm > USUAL.gap.most) {
    const asInches = receiver.depthMm - MM_PER_INCH * mouthpiece.insertionMm;
    const hint = isIn(asInches, USUAL.gap) ? ", or is the insertion in inches?" : "";
    say(
      ["mouthpiece", "insertion"],
      mouthpiece.insertionMm,
      `an insertion of ${size(mouthpiece.insertionMm, unit)} leaves a gap of ${size(gapMm, unit)}; the model is checked up to ${size(USUAL.gap.most, unit)}: check depth and insertion${hint}`,
    );
  }
  steps(setup, (keys, ratio, text) => {
    if (ratio > USUAL.stepRatio.most)
      say(keys, ratio, `${text(unit)}: unusual; up to ${USUAL.stepRatio.most} times would be usual`);
  });
  const cavity = cavityRatio(setup);
  if (cavity.ratio > USUAL.cavityRatio.most)
    say(
      cavity.keys,
      cavity.ratio,
      `${cavity.text(unit)}: unusual; up to ${USUAL.cavityRatio.most} times would be usual`,
    );
  return problems;
}

function collecting(): { readonly problems: Problem[]; readonly say: Say } {
  const problems: Problem[] = [];
  return { problems, say: (keys, value, message) => problems.push({ path: pathText(keys), value, message }) };
}

const firstOfEachPart = (problems: readonly Problem[]): Problem[] =>
  problems.filter(
    ({ path }, i) => problems.findIndex((other) => other.path.split(".")[0] === path.split(".")[0]) === i,
  );

/** Says where a length is outside its range. */
const lengthCheck =
  (say: Say, unit: LengthUnit, verdict: string) =>
  (keys: Keys, what: string, valueMm: number, range: Range): void => {
    if (isIn(valueMm, range)) return;
    const article = /^[aeiou]/.test(what) ? "an" : "a";
    say(
      keys,
      valueMm,
      `${article} ${what} of ${size(valueMm, unit)} ${verdict} ${rangeText(valueMm, range, unit)}`,
    );
  };

/** What would be right, and whether the other unit would make it so. */
function rangeText(valueMm: number, range: Range, unit: LengthUnit): string {
  const expected = `${size(range.least, unit)} to ${size(range.most, unit)}`;
  const other = unit === "mm" ? "inches" : "mm";
  const asOther = unit === "mm" ? valueMm * MM_PER_INCH : valueMm / MM_PER_INCH;
  return isIn(asOther, range) ? `${expected}, or is it in ${other}?` : expected;
}

const ratioText = (ratio: number, { most }: Range): string =>
  `${ratio.toPrecision(3)} times, and no more than ${most} can be; check both, and their units`;

function diameters(
  setup: Setup,
  visit: (part: Part, i: number, diameterMm: number, profileMm: ProfileMm) => void,
): void {
  for (const part of PARTS) {
    const { profileMm } = setup[part];
    profileMm.forEach(([, diameterMm], i) => {
      visit(part, i, diameterMm, profileMm);
    });
  }
}

const extremeOf = (profileMm: ProfileMm, isMore: (a: number, b: number) => boolean): number =>
  profileMm.reduce((best, [, d], i) => (isMore(d, profileMm[best][1]) ? i : best), 0);
const narrowestOf = (profileMm: ProfileMm): number => extremeOf(profileMm, (a, b) => a < b);
const widestOf = (profileMm: ProfileMm): number => extremeOf(profileMm, (a, b) => a > b);

const wholeLengthMm = (setup: Setup): number =>
  PARTS.reduce((sum, part) => sum + profileLengthMm(setup[part].profileMm), 0);

/** The other unit, where a diameter would be in line with its neighbours in it; they must be in line with each other. */
function slipOf(profileMm: ProfileMm, i: number, endsWide: boolean): "in" | "mm" | null {
  const [positionMm, diameterMm] = profileMm[i];
  const before = profileMm[i - 1] ?? profileMm[i + 2];
  const after = profileMm[i + 1] ?? profileMm[i - 2];
  if (!before || !after) return null;
  const isEnd = i === 0 || i === profileMm.length - 1;
  const near = Math.min(before[1], after[1]);
  const far = Math.max(before[1], after[1]);
  if (!(far < 2 * SLIP * near)) return null;
  const between = (positionMm - before[0]) / (after[0] - before[0]);
  const expected =
    isEnd || !(between >= 0 && between <= 1)
      ? profileMm[i === 0 ? 1 : i - 1][1]
      : before[1] + (after[1] - before[1]) * between;
  const isNear = (ratio: number) => ratio < SLIP && ratio > 1 / SLIP;
  if (isNear((diameterMm * MM_PER_INCH) / expected)) return "in";
  // a bell may well end in a rim 25 times as wide as the tube
  const isBell = endsWide && i === profileMm.length - 1;
  return isNear(diameterMm / MM_PER_INCH / expected) && !isBell ? "mm" : null;
}

function slipText(diameterMm: number, slip: "in" | "mm", unit: LengthUnit): string {
  const given = Number((unit === "mm" ? diameterMm : diameterMm / MM_PER_INCH).toPrecision(4));
  return slip === "in"
    ? `in inches it would fit; give ${size(MM_PER_INCH * diameterMm, unit)}${unit === "mm" ? `, or "${given} in"` : ""}`
    : `in mm it would fit; give ${size(diameterMm / MM_PER_INCH, unit)}${unit === "in" ? `, or "${given} mm"` : ""}`;
}

/** Where two diameters stand at one place, as their ratio, the larger over the smaller. */
function steps(
  setup: Setup,
  visit: (keys: Keys, ratio: number, text: (unit: LengthUnit) => string) => void,
): void {
  const step = (keys: Keys, fromMm: number, toMm: number) =>
    visit(
      keys,
      Math.max(fromMm, toMm) / Math.min(fromMm, toMm),
      (unit) => `a step from ${size(fromMm, unit)} to ${size(toMm, unit)}`,
    );
  for (const part of PARTS) {
    const { profileMm } = setup[part];
    for (let i = 1; i < profileMm.length; i++)
      if (isWall(profileMm[i - 1], profileMm[i]))
        step([part, "profile", i, 1], profileMm[i - 1][1], profileMm[i][1]);
  }
  step(["body", "profile", 0, 1], exitBoreMm(setup.leadpipe.profileMm), setup.body.profileMm[0][1]);
}

/** The receiver beside the narrower of the two mouths that open into it. */
function cavityRatio({ mouthpiece, receiver, leadpipe }: Setup) {
  const shankMm = exitBoreMm(mouthpiece.profileMm);
  const startMm = leadpipe.profileMm[0][1];
  const { mouthDiameterMm, taper, depthMm } = receiver;
  const endMm = cavityDiameterMm(mouthDiameterMm, taper, depthMm);
  const isShank = shankMm <= startMm;
  const boreMm = Math.min(shankMm, startMm);
  // a leadpipe may also be wider than the receiver's end
  const [ratio, widthMm, keys] =
    mouthDiameterMm / boreMm >= startMm / endMm
      ? [mouthDiameterMm / boreMm, mouthDiameterMm, ["receiver", "mouthDiameter"]]
      : [startMm / endMm, endMm, ["receiver", "taper"]];
  return {
    keys,
    ratio,
    text: (unit: LengthUnit) =>
      `a receiver ${size(widthMm, unit)} wide beside a bore of ${size(widthMm === endMm ? startMm : boreMm, unit)} at the ${isShank && widthMm !== endMm ? "shank’s end" : "start of the leadpipe"}`,
  };
}

/** Σ |Δ ln diameter| along a profile. */
function upsAndDowns(profileMm: ProfileMm): number {
  let sum = 0;
  for (let i = 1; i < profileMm.length; i++) sum += Math.abs(Math.log(profileMm[i][1] / profileMm[i - 1][1]));
  return sum;
}
