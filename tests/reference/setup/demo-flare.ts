/**
 * Draws the flare of the demo's bell: `npx tsx tests/reference/setup/demo-flare.ts`. The body is its cylinder and a Bessel horn
 * d = B (s + s₀)^−γ (s from the mouth; Benade & Jansson 1974, Acustica 31, 79) with a few smooth bulges; γ, the horn's width where
 * it starts and the bulges are moved by least squares until resonances 2 to 10, with the curved fronts of the sound in the bell,
 * stand close to a harmonic series, as a maker fits a bell to its tube. Everything else of the file stays.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { Instrument } from "../../../src/index.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { ProfileMm } from "../../../src/setup/setup.ts";
import { commonFundamental, inContext } from "../../../src/study/instrument/modeTable.ts";
import { cents } from "../../../src/study/instrument/pitch.ts";
import { levenbergMarquardt } from "../../../src/study/leastSquares/levenbergMarquardt.ts";
import { bulgeAt } from "./bulge.ts";
import { setupText } from "./setupText.ts";

const BULGES = 5;
/** What is moved: γ, the width where the horn starts, the bulges; and what a unit of each costs beside half a cent. */
const COSTS = [0.1, 0.1, ...new Array<number>(BULGES).fill(2)];
const file = new URL("../../../shared/demo.setup.json", import.meta.url);
const drawn = JSON.parse(readFileSync(file, "utf8"));
const before: ProfileMm = drawn.body.profile;
const [cylinderMm, pipeMm] = before[1];
const [endMm, mouthMm] = before[before.length - 1];
const openMm = endMm - cylinderMm;

function bodyOf([flare, hornStart, ...heights]: readonly number[]): ProfileMm {
  const gamma = 0.6 * Math.exp(0.1 * flare);
  const startMm = pipeMm * Math.exp(0.05 * hornStart);
  const s0 = openMm / ((mouthMm / startMm) ** (1 / gamma) - 1);
  let widest = 0;
  return before.map(([placeMm, diameterMm], i) => {
    if (i < 2 || i === before.length - 1) return [placeMm, diameterMm];
    const horn = startMm * ((openMm + s0) / (endMm - placeMm + s0)) ** gamma;
    const bulge = bulgeAt(heights, (placeMm - cylinderMm) / openMm);
    widest = Math.max(pipeMm, widest, Math.round(100 * horn * Math.exp(0.02 * bulge)) / 100);
    return [placeMm, widest];
  });
}

const fileOf = (x: readonly number[], bell: "automatic" | "plane") => ({
  ...drawn,
  body: { ...drawn.body, profile: bodyOf(x) },
  model: { ...drawn.model, bell },
});

/** Cents of resonances 2 to 10 off their common harmonic series, and of that series' second off B♭3 at A = 440 Hz. */
function centsOff(x: readonly number[], bell: "automatic" | "plane" = "automatic"): number[] {
  const instrument = new Instrument(readSetup(fileOf(x, bell)), { modes: 12 });
  const modes = inContext(instrument.modes(instrument.gapMm));
  return [
    ...modes.slice(1, 10).map(({ equivalentCents }) => equivalentCents),
    cents(2 * commonFundamental(modes), 233.08),
  ];
}

const residuals = (x: readonly number[]) => [
  ...centsOff(x).map((off, i) => off / (i < 9 ? 2 : 4)),
  ...x.map((value, i) => COSTS[i] * value),
];
const search = levenbergMarquardt(
  {
    start: COSTS.map(() => 0),
    low: COSTS.map(() => -8),
    high: COSTS.map(() => 8),
    residuals,
    columns: (x) => {
      const here = residuals(x);
      return x.map((value, i) => residuals(x.with(i, value + 0.1)).map((r, k) => (r - here[k]) / 0.1));
    },
  },
  { squares: 1e-3, variables: 1e-2 },
);
let best: readonly number[] = [];
let count = 0;
const told = (off: readonly number[]) => off.map((value) => value.toFixed(1)).join(" ");
console.log("begins at", told(centsOff(COSTS.map(() => 0))));
for (const { x, settled } of search) {
  best = x;
  console.log(told(centsOff(x)), "by", told(x));
  if (settled || ++count >= 8) break;
}
console.log("plane waves", told(centsOff(best, "plane")));
writeFileSync(file, setupText(fileOf(best, "automatic")));
