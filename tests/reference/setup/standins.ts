/**
 * Draws the stand-in instruments in shared/standins: `npx tsx tests/reference/setup/standins.ts [name …]`. Sizes are ordinary and
 * round, from common practice, no maker's. The body is a cylinder, a cone and a Bessel horn d = B (s + s₀)^−γ (s from the mouth;
 * Benade & Jansson 1974, Acustica 31, 79); its length, γ, the widths of a few smooth bulges and the length of its cylinder are
 * moved by least squares until resonances 2 to 10 or 12 stand close to the harmonics of its pitch, as a maker fits a bell to its tube.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { Instrument } from "../../../src/index.ts";
import { leadpipeOfShape } from "../../../src/setup/bore/leadpipeShape.ts";
import { type MouthpieceShape, mouthpieceOfShape } from "../../../src/setup/bore/mouthpieceShape.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { ProfileMm } from "../../../src/setup/setup.ts";
import { levenbergMarquardt } from "../../../src/study/leastSquares/levenbergMarquardt.ts";
import { bulgeAt } from "./bulge.ts";
import { setupText } from "./setupText.ts";

interface Recipe {
  readonly name: string;
  /** What else is to be known of it. */
  readonly remark?: string;
  readonly fundamentalHz: number;
  readonly highest: number;
  readonly mouthpiece: MouthpieceShape;
  readonly shankEndMm: number;
  readonly taper: number;
  readonly insertionMm: number;
  readonly gapMm: number;
  readonly leadpipe: { readonly entry: number; readonly end: number; readonly length: number };
  readonly body: {
    /** Whole length to begin with. */
    readonly length: number;
    /** How much of it is cylinder. */
    readonly cylinder: number;
    /** Where the horn begins, from the mouth, and how wide it is there. */
    readonly horn: number;
    readonly hornStart: number;
    readonly mouth: number;
    readonly flare: number;
    readonly slideAt: number;
  };
}

/** Rim, cup depth, cup volume, throat and its length, exit, overall. */
const mouthpiece = (
  rimDiameterMm: number,
  cupDepthMm: number,
  volumeMl: number,
  throatDiameterMm: number,
  throatLengthMm: number,
  exitDiameterMm: number,
  lengthMm: number,
): MouthpieceShape => ({
  rimDiameterMm,
  cupDepthMm,
  cup: { volumeMl },
  throatDiameterMm,
  throatLengthMm,
  exitDiameterMm,
  lengthMm,
});

/** Equal temperament, a′ 440 Hz; semitones from a′. */
const pitch = (semitones: number): number => 440 * 2 ** (semitones / 12);
const TRUMPET = mouthpiece(16.5, 10.5, 1.3, 3.7, 6, 8.4, 87);
const TRUMPET_SHANK = { shankEndMm: 9.7, taper: 0.05, insertionMm: 22, gapMm: 2.5 } as const;
const BONE = { taper: 0.05, insertionMm: 28, gapMm: 3 } as const;
const HORN = {
  mouthpiece: mouthpiece(17.5, 30, 2.9, 4.6, 4, 7, 66),
  shankEndMm: 8,
  taper: 0.05,
  insertionMm: 20,
  gapMm: 2,
} as const;
const NO_HAND = "There is no hand in its bell.";

const recipes: Readonly<Record<string, Recipe>> = {
  "b-flat-trumpet": {
    name: "Stand-in B-flat trumpet",
    fundamentalHz: pitch(-23),
    highest: 10,
    mouthpiece: TRUMPET,
    ...TRUMPET_SHANK,
    leadpipe: { entry: 8.8, end: 11.7, length: 240 },
    body: { length: 1055, cylinder: 480, horn: 575, hornStart: 11.7, mouth: 122, flare: 0.65, slideAt: 120 },
  },
  "c-trumpet": {
    name: "Stand-in C trumpet",
    fundamentalHz: pitch(-21),
    highest: 10,
    mouthpiece: TRUMPET,
    ...TRUMPET_SHANK,
    leadpipe: { entry: 8.8, end: 11.7, length: 220 },
    body: { length: 915, cylinder: 370, horn: 545, hornStart: 11.7, mouth: 122, flare: 0.65, slideAt: 90 },
  },
  "e-flat-trumpet": {
    name: "Stand-in E-flat trumpet",
    fundamentalHz: pitch(-18),
    highest: 10,
    mouthpiece: TRUMPET,
    ...TRUMPET_SHANK,
    leadpipe: { entry: 8.8, end: 11.5, length: 180 },
    body: { length: 745, cylinder: 270, horn: 475, hornStart: 11.5, mouth: 118, flare: 0.65, slideAt: 60 },
  },
  cornet: {
    name: "Stand-in B-flat cornet",
    fundamentalHz: pitch(-23),
    highest: 10,
    mouthpiece: mouthpiece(16.5, 14, 1.6, 4.2, 5, 7.2, 66),
    shankEndMm: 8.4,
    taper: 0.05,
    insertionMm: 20,
    gapMm: 2,
    leadpipe: { entry: 7.6, end: 11.7, length: 260 },
    body: { length: 1050, cylinder: 330, horn: 500, hornStart: 13, mouth: 120, flare: 0.65, slideAt: 60 },
  },
  flugelhorn: {
    name: "Stand-in B-flat flugelhorn",
    fundamentalHz: pitch(-23),
    highest: 8,
    mouthpiece: mouthpiece(16.5, 17, 1.9, 4.3, 3, 7.4, 65),
    shankEndMm: 8.8,
    taper: 0.05,
    insertionMm: 20,
    gapMm: 2,
    leadpipe: { entry: 8, end: 10.5, length: 150 },
    body: { length: 1150, cylinder: 220, horn: 430, hornStart: 26, mouth: 152, flare: 0.7, slideAt: 30 },
  },
  "tenor-trombone-small": {
    name: "Stand-in small-shank tenor trombone",
    fundamentalHz: pitch(-35),
    highest: 10,
    mouthpiece: mouthpiece(25, 21, 5.6, 6.5, 6, 10, 80),
    shankEndMm: 11.1,
    ...BONE,
    leadpipe: { entry: 10.4, end: 12.7, length: 230 },
    body: { length: 2400, cylinder: 1650, horn: 600, hornStart: 21, mouth: 203, flare: 0.7, slideAt: 1200 },
  },
  "tenor-trombone-large": {
    name: "Stand-in large-shank tenor trombone",
    fundamentalHz: pitch(-35),
    highest: 10,
    mouthpiece: mouthpiece(25.5, 24, 7, 7, 6, 11.3, 82),
    shankEndMm: 12.6,
    ...BONE,
    leadpipe: { entry: 11.8, end: 13.9, length: 230 },
    body: { length: 2400, cylinder: 1650, horn: 600, hornStart: 22, mouth: 216, flare: 0.7, slideAt: 1200 },
  },
  "bass-trombone": {
    name: "Stand-in bass trombone",
    fundamentalHz: pitch(-35),
    highest: 10,
    mouthpiece: mouthpiece(28, 27, 10, 7.6, 6, 11.6, 85),
    shankEndMm: 12.6,
    ...BONE,
    leadpipe: { entry: 12.1, end: 14.3, length: 230 },
    body: { length: 2400, cylinder: 1600, horn: 640, hornStart: 23, mouth: 241, flare: 0.7, slideAt: 1200 },
  },
  "horn-f": {
    name: "Stand-in double horn, F side",
    remark: NO_HAND,
    fundamentalHz: pitch(-40),
    highest: 12,
    ...HORN,
    leadpipe: { entry: 7.8, end: 11.9, length: 500 },
    body: { length: 3150, cylinder: 1500, horn: 750, hornStart: 27, mouth: 310, flare: 0.75, slideAt: 200 },
  },
  "horn-b-flat": {
    name: "Stand-in double horn, B-flat side",
    remark: NO_HAND,
    fundamentalHz: pitch(-35),
    highest: 12,
    ...HORN,
    leadpipe: { entry: 7.8, end: 11.9, length: 500 },
    body: { length: 2200, cylinder: 600, horn: 750, hornStart: 27, mouth: 310, flare: 0.75, slideAt: 200 },
  },
  euphonium: {
    name: "Stand-in euphonium",
    fundamentalHz: pitch(-35),
    highest: 10,
    mouthpiece: mouthpiece(25.5, 25, 7.2, 6.8, 6, 11.3, 82),
    shankEndMm: 12.6,
    ...BONE,
    leadpipe: { entry: 11.8, end: 14.7, length: 280 },
    body: { length: 2400, cylinder: 700, horn: 700, hornStart: 50, mouth: 285, flare: 0.75, slideAt: 100 },
  },
  tuba: {
    name: "Stand-in B-flat tuba",
    fundamentalHz: pitch(-47),
    highest: 10,
    mouthpiece: mouthpiece(32.5, 36, 18, 8.2, 6, 12.5, 94),
    shankEndMm: 13.4,
    taper: 0.06,
    insertionMm: 30,
    gapMm: 3,
    leadpipe: { entry: 13, end: 19, length: 600 },
    body: { length: 4900, cylinder: 1500, horn: 1000, hornStart: 110, mouth: 420, flare: 0.75, slideAt: 200 },
  },
};

const BULGES = 8;
/** Length, cylinder, flare, width at the horn's start, and the bulges; in units of which each moves the resonances about as much. */
const VARIABLES = 4 + BULGES;

function bodyOf({ leadpipe, body }: Recipe, x: readonly number[]): ProfileMm {
  const length = body.length * (1 + 0.02 * x[0]);
  const cylinder = body.cylinder * (1 + 0.1 * x[1]);
  const flare = body.flare * (1 + 0.1 * x[2]);
  const isOnlyHorn = body.hornStart <= leadpipe.end;
  const hornStart = isOnlyHorn ? body.hornStart : body.hornStart * Math.exp(0.1 * x[3]);
  const open = length - cylinder;
  const horn = isOnlyHorn ? open : body.horn;
  const s0 = horn / ((body.mouth / hornStart) ** (1 / flare) - 1);
  const points: [number, number][] = [
    [0, leadpipe.end],
    [cylinder, leadpipe.end],
  ];
  const steps = 64;
  for (let i = 1; i <= steps; i++) {
    const s = (open * Math.expm1(5 * (1 - i / steps))) / Math.expm1(5);
    const smooth =
      s > horn
        ? leadpipe.end + ((hornStart - leadpipe.end) * (open - s)) / (open - horn)
        : hornStart * ((horn + s0) / (s + s0)) ** flare;
    const bulge = bulgeAt(x.slice(4), 1 - s / open);
    const width = i === steps ? body.mouth : smooth * Math.exp(0.05 * bulge);
    points.push([length - s, Math.max(width, points[points.length - 1][1])]);
  }
  return rounded(points);
}

/** To a hundredth of a millimetre, no place twice. */
const rounded = (profileMm: ProfileMm): [number, number][] =>
  profileMm
    .map(([x, d]): [number, number] => [Math.round(100 * x) / 100, Math.round(100 * d) / 100])
    .filter(([x], i, all) => i === 0 || x > all[i - 1][0]);

function fileOf(id: string, recipe: Recipe, x: readonly number[], bell: "plane" | "multimodal") {
  const { shankEndMm, taper, insertionMm, gapMm, leadpipe } = recipe;
  const remark = recipe.remark ? ` ${recipe.remark}` : "";
  return {
    format: "annulus-setup",
    version: 1,
    name: recipe.name,
    about:
      `Invented, of usual size: nobody's instrument, and every dimension assumed.${remark} ` +
      `Its flare was drawn so that resonances 2 to ${recipe.highest} lie close to the harmonics of ${recipe.fundamentalHz.toFixed(2)} Hz at 27 °C.`,
    instrument: id,
    units: "mm",
    air: { temperature: 27, humidity: 0.5, co2: 0.0004, pressure: 101325 },
    mouthpiece: {
      profile: rounded(mouthpieceOfShape(recipe.mouthpiece)),
      cupDepth: recipe.mouthpiece.cupDepthMm,
      shankEndDiameter: shankEndMm,
      shankTaper: taper,
      insertion: insertionMm,
    },
    receiver: {
      mouthDiameter: Math.round(100 * (shankEndMm + taper * insertionMm)) / 100,
      taper,
      depth: insertionMm + gapMm,
    },
    leadpipe: {
      profile: leadpipeOfShape({
        entryDiameterMm: leadpipe.entry,
        narrowestAtMm: 0,
        entryTaper: 0,
        endDiameterMm: leadpipe.end,
        lengthMm: leadpipe.length,
      }),
    },
    body: { profile: bodyOf(recipe, x), slideAt: recipe.body.slideAt },
    model: { junction: "modal", radiation: "unflanged", bell },
    provenance: { mouthpiece: "assumed", receiver: "assumed", leadpipe: "assumed", body: "assumed" },
  };
}

/** Cents of each resonance from 2 off the harmonic. */
function centsOff(id: string, recipe: Recipe, x: readonly number[], bell: "plane" | "multimodal"): number[] {
  const instrument = new Instrument(readSetup(fileOf(id, recipe, x, bell)), { modes: recipe.highest });
  return instrument
    .modes(instrument.gapMm)
    .slice(1)
    .map(({ n, frequencyHz }) => 1200 * Math.log2(frequencyHz / (n * recipe.fundamentalHz)));
}

function tuned(
  id: string,
  recipe: Recipe,
  from: readonly number[],
  bell: "plane" | "multimodal",
  most: number,
) {
  // a cent weighs as much as a variable moved by a tenth of its unit; length and cylinder cost nothing
  const pull = (x: readonly number[]) => x.map((value, i) => (i < 1 ? 0 : value * (i < 4 ? 1 : 1.5)));
  const residuals = (x: readonly number[]) => {
    const off = centsOff(id, recipe, x, bell);
    return off.length < recipe.highest - 1 ? [Number.NaN] : [...off.map((cents) => cents / 3), ...pull(x)];
  };
  const search = levenbergMarquardt(
    {
      start: from,
      low: new Array(VARIABLES).fill(-8),
      high: new Array(VARIABLES).fill(8),
      residuals,
      columns: (x) => {
        const here = residuals(x);
        return x.map((value, i) => {
          const there = residuals(x.with(i, value + 0.05));
          return here.map((r, k) => (there[k] - r) / 0.05);
        });
      },
    },
    { squares: 1e-2, variables: 1e-2 },
  );
  let best = from;
  let count = 0;
  for (const { x, settled } of search) {
    best = x;
    if (settled || ++count >= most) break;
  }
  return best;
}

const wanted = process.argv.slice(2);
const folder = new URL("../../../shared/standins/", import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [id, recipe] of Object.entries(recipes)) {
  if (wanted.length > 0 && !wanted.includes(id)) continue;
  // the length alone first, by what the resonances say themselves
  let x: readonly number[] = new Array(VARIABLES).fill(0);
  for (let i = 0; i < 4; i++) {
    const off = centsOff(id, recipe, x, "plane");
    const middle = off.slice(1, 5).reduce((sum, cents) => sum + cents, 0) / 4;
    x = x.with(0, x[0] + (Math.expm1((middle * Math.LN2) / 1200) / 0.02) * 1.2);
  }
  console.log(id, "begins at", centsOff(id, recipe, x, "plane").map(Math.round).join(" "));
  x = tuned(id, recipe, x, "plane", 12);
  x = tuned(id, recipe, x, "multimodal", 3);
  console.log(id, "multimodal", centsOff(id, recipe, x, "multimodal").map(Math.round).join(" "));
  console.log(id, "plane     ", centsOff(id, recipe, x, "plane").map(Math.round).join(" "));
  console.log(id, x.map((value) => value.toFixed(2)).join(" "));
  writeFileSync(new URL(`${id}.setup.json`, folder), setupText(fileOf(id, recipe, x, "multimodal")));
}
