/** What stands on the drawings of gauges, leadpipes and mandrels, and why one cannot be made. All of it common practice, no source. */
import type { PlugFlaw, PlugGauge } from "../../bench/gauges/plugGauge.ts";
import type { RingFlaw, RingGauge } from "../../bench/gauges/ringGauge.ts";
import type { TaperedTube, TubeFlaw, TubeQuestion } from "../../bench/gauges/taperedTube.ts";
import { taperForms } from "../../bench/gauges/taperForms.ts";
import { type ProvenanceDimension, provenanceOf } from "../../setup/dimension/provenance.ts";
import type { Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { DIMENSION_NAME } from "../provenance.ts";
import { lengthInWords } from "./inWords.ts";

export const GAUGE_KINDS = ["plug", "ring", "leadpipe", "mandrel"] as const;
export type GaugeKind = (typeof GAUGE_KINDS)[number];

export const GAUGE_TITLE: Readonly<Record<GaugeKind, string>> = {
  plug: "Stepped depth plug",
  ring: "Go/no-go ring for the shank",
  leadpipe: "Leadpipe",
  mandrel: "Mandrel for the leadpipe",
};

/** Of files. */
export const GAUGE_FILE: Readonly<Record<GaugeKind, string>> = {
  plug: "depth-plug",
  ring: "shank-ring",
  leadpipe: "leadpipe",
  mandrel: "mandrel",
};

/** What each is for, in a sentence or two. */
export const GAUGE_ABOUT: Readonly<Record<GaugeKind, string>> = {
  plug: "Goes into the receiver until its flat nose stands on the start of the leadpipe. Its shoulders tell the depth.",
  ring: "A receiver to hold in the hand. A shank seats in it as in the instrument, and a window shows the gap it will have.",
  leadpipe: "The tube as it is finished: bore, outside, and the taper of each segment.",
  mandrel:
    "What the leadpipe is drawn on. It is longer than the tube at both ends; the tube is cut to length afterwards.",
};

/** Of a PDF whose typefaces lack some letters of a name. */
export const unknownLettersWords = (letters: readonly string[]): string =>
  `The PDF has a question mark in place of ${letters.join(" ")}: its typeface has Latin, Greek and Cyrillic letters only. The SVG keeps the name as it is.`;

/** `24.54 [0.966]`: the shop's unit first, the other in brackets, as drawings have it. */
export function figures(lengthMm: number, unit: LengthUnit, digits: 2 | 3 = 2): string {
  const [mm, inches] = [formatLength(lengthMm, "mm", digits), formatLength(lengthMm, "in", digits + 1)].map(
    (text) => text.slice(0, -3).replace("-", "−"),
  );
  return unit === "mm" ? `${mm} [${inches}]` : `${inches} [${mm}]`;
}

export const diameterFigures = (diameterMm: number, unit: LengthUnit, digits: 2 | 3 = 2): string =>
  `Ø${figures(diameterMm, unit, digits)}`;

export const unitLine = (unit: LengthUnit): string =>
  `Lengths in ${unit === "mm" ? "mm [in]" : "in [mm]"}. True size where no scale is given.`;

export const toleranceLine = (toleranceMm: number, unit: LengthUnit): string =>
  `Tolerance ±${figures(toleranceMm, unit, 3)} unless stated. Break edges 0.1 mm.`;

export const MADE_BY = "Made by ____________   Date __________   Checked __________";

export const printCheckWords = (unit: LengthUnit): string =>
  `${unit === "mm" ? "50 mm" : "2 in"} on the print: measure it`;

/** `1:20.05`, `0.0499 in/in`, `0.599 in/ft`, `1.429°` to each side. */
export function taperCells(
  taper: number | undefined,
): readonly [ratio: string, perInch: string, perFoot: string, half: string] {
  if (taper === undefined) return ["step", "–", "–", "–"];
  const { ratio, perInch, perFoot, halfAngleDegrees } = taperForms(taper);
  if (ratio === undefined || ratio > 1e5) return ["cylinder", "0", "0", "0"];
  const sign = taper < 0 ? "−" : "";
  const shown = (value: number, digits: number) =>
    `${sign}${(Math.abs(value) * (1 + 1e-12)).toFixed(digits)}`;
  return [
    `1:${ratio.toFixed(ratio < 100 ? 2 : 0)}${taper < 0 ? " narrowing" : ""}`,
    shown(perInch, 5),
    shown(perFoot, 4),
    `${shown(halfAngleDegrees, 3)}°`,
  ];
}

/** Beside every one of them, on the sheet, on the page and at the terminal. */
export const GAUGE_CAUTIONS: readonly string[] = [
  "Lathe: eye protection and the chuck guard; no gloves, rings, loose sleeves or hair; clear swarf with a hook, not by hand. Abrasive only on a backed strip or holder.",
  "Common practice, no source. Local rules and a qualified repairer come before this drawing.",
];

const USES: Readonly<Record<GaugeKind, readonly ProvenanceDimension[]>> = {
  plug: ["receiver.depth", "receiver.mouthDiameter", "receiver.taper", "leadpipe.profile"],
  ring: ["receiver.depth", "receiver.mouthDiameter", "receiver.taper", "mouthpiece.insertion"],
  leadpipe: ["leadpipe.profile"],
  mandrel: ["leadpipe.profile"],
};

/** What of the drawing rests on dimensions that nobody has measured; empty where none does. */
export function assumedWords(setup: Setup, kind: GaugeKind): string[] {
  const assumed = USES[kind].filter((dimension) => provenanceOf(setup, dimension) === "assumed");
  if (assumed.length === 0) return [];
  const names = LIST.format(assumed.map((dimension) => DIMENSION_NAME[dimension]));
  return [`Assumed, not measured: ${names}. Measure before anything is made to this drawing.`];
}

const LIST = new Intl.ListFormat("en-GB", { type: "conjunction" });

/** How a plug is made and read. */
export function plugNotes({ lipMm, shoulders }: PlugGauge, unit: LengthUnit): string[] {
  const mm = lengthInWords(unit);
  return [
    `Nose A flat, its edge broken by 0.05 mm at most: it stands on ${mm(lipMm)} of the leadpipe's end all round. Never force it.`,
    "A straightedge across the receiver's face: the depth lies between the last shoulder below it and the first above.",
    `Finer: overall length less what stands out of the receiver. Shoulders are ${mm(shoulders[1].lengthMm - shoulders[0].lengthMm)} apart; stamp on it what each measures when made.`,
    "No lip, no depth: not for chamfered, flush, reversed or one-piece leadpipes. Look for dents, solder and burrs first.",
  ];
}

/** How a ring is made, set and read. */
export function ringNotes(
  { masterInsertionMm, insertionPerHundredthMm, limitsMm }: RingGauge,
  unit: LengthUnit,
): string[] {
  const mm = lengthInWords(unit);
  return [
    `Set it by insertion, not by diameter: a shank that goes ${mm(masterInsertionMm)} into the receiver must go as far into the ring. Take metal off face A until it does, then face B to length.`,
    `On the bore ${mm(0.01)} is ${mm(insertionPerHundredthMm)} of insertion.`,
    `Right when the shank's end, in the window, passes GO and does not pass NO-GO: a gap of ${mm(limitsMm[0])} to ${mm(limitsMm[1])}. Clean and dry, seated with a light twist.`,
  ];
}

/** How a leadpipe or its mandrel is made. */
export function tubeNotes(
  kind: "leadpipe" | "mandrel",
  { departureMm, turnsAtMm, toleranceMm }: TaperedTube,
  { springBackMm, overrunMm, wallMm }: TubeQuestion,
  unit: LengthUnit,
): string[] {
  const mm = lengthInWords(unit);
  return [
    "Lengths from datum A, the start of the leadpipe.",
    ...(kind === "mandrel"
      ? [
          springBackMm === 0
            ? "No allowance for spring-back: draw one tube, measure its bore, and give what it is wider by."
            : `Smaller than the bore by ${mm(springBackMm, 3)}, the allowance for spring-back: measured on a drawn tube, or to be.`,
          `Longer than the tube by ${mm(overrunMm)} at each end; tube of ${mm(wallMm)} wall.`,
        ]
      : [
          `Wall ${mm(wallMm)}: outside diameter = bore + ${mm(2 * wallMm)}. A bend thins the wall outside and can oval the bore.`,
        ]),
    ...(departureMm > 0
      ? [
          `Straight segments stand for the bore within ${mm(departureMm, 3)} on the diameter, of the tolerance of ${mm(toleranceMm, 3)}.`,
        ]
      : []),
    ...(turnsAtMm === undefined
      ? []
      : [
          `Widens and narrows by turns, first at ${mm(turnsAtMm)}: no mandrel of one piece comes out. Make it in two, or form one end afterwards.`,
        ]),
  ];
}

/** Why none can be made, to follow a colon. */
export function gaugeFlawWords(flaw: PlugFlaw | RingFlaw | TubeFlaw, unit: LengthUnit): string {
  const mm = lengthInWords(unit);
  switch (flaw.kind) {
    case "no-lip":
      return flaw.lipMm > 0
        ? `the start of the leadpipe is a lip of ${mm(flaw.lipMm)} only, and a flat nose needs ${mm(flaw.leastMm)}`
        : "there is no lip at the start of the leadpipe for a plug to stand on, so there is no depth to measure";
    case "steps-too-long":
      return `shoulders ${mm(flaw.stepMm)} apart do not fit; give more than 0, to ${mm(flaw.mostMm)}`;
    case "no-taper":
      return "the receiver has no taper, so no shank stops in it at one depth";
    case "limits-out-of-reach":
      return `the gap's limits do not fit on the ring; give two between 0 and ${mm(flaw.mostMm)}, the lower first`;
    case "marks-too-close":
      return `marks ${mm(flaw.everyMm, 3)} apart cannot be read; give ${mm(flaw.leastMm)} or more`;
    case "nothing-left":
      return `nothing is left of it at ${mm(flaw.atMm)}; check the bore, the allowance for spring-back and the length beyond the ends`;
    case "out-of-range":
      return {
        wall: `the wall is out of range; give more than 0, to ${mm(5)}`,
        "spring-back": `the allowance for spring-back is out of range; give ${mm(-1)} to ${mm(1)}`,
        overrun: `the length beyond the ends is out of range; give 0 to ${mm(200)}`,
        tolerance: `the working tolerance is out of range; give ${mm(0.001, 3)} to ${mm(0.5, 3)}`,
      }[flaw.what];
  }
}
