/** The demo's own results, by the real model, and a frame to draw them in. */
import { readFileSync } from "node:fs";
import type { Frame } from "../../src/charts/kit/drawing.ts";
import { readSetupText } from "../../src/setup/file/readSetup.ts";
import { breathOf } from "../../src/study/blown/breath.ts";
import type { ExploredUnderBreath } from "../../src/study/blown/underBreath.ts";
import { Exploration, type Explored } from "../../src/study/instrument/exploration.ts";
import { type GapSweep, gapSweep } from "../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";

export const setup = readSetupText(readFileSync("shared/demo.setup.json", "utf8"));
export const { thresholds } = setup;
export const referenceGapMm = 2.5;

const exploration = new Exploration(setup);
export const explored = (gapMm: number, resonance = 4): Explored =>
  exploration.explore(gapMm, referenceGapMm, resonance);

/** At 30 L/min, with the same gap's curve in still air. */
export const blown: ExploredUnderBreath = {
  ...new Exploration(setup, undefined, breathOf(setup, 30)).explore(4, referenceGapMm, 4),
  stillCurve: exploration.curveAt(4),
};

const instrument = new Instrument(setup);
const gapsMm = Array.from({ length: 25 }, (_, i) => i / 2);
export const asItIs: GapSweep = gapSweep(instrument, { gapsMm, referenceGapMm });
export const retuned: GapSweep = gapSweep(instrument, { gapsMm, referenceGapMm, retune: 4 });

export const laptop: Frame = { width: 600, height: 300, unit: "mm", instrument: "b-flat-trumpet" };

export const description = (svg: SVGSVGElement): string => svg.querySelector("desc")?.textContent ?? "";
export const text = (svg: SVGSVGElement): string =>
  Array.from(svg.querySelectorAll("text"), (element) => element.textContent).join("\n");
