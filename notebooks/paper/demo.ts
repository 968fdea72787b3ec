/** The invented instrument of the page's first visit, and the gap that changes are counted from. */
import demoFile from "../../shared/demo.setup.json" with { type: "json" };
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { instrumentOf } from "../../src/setup/instrumentOf.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { noteLabel, noteText, partialName } from "../../src/words/instruments.ts";

export const demo: Setup = readSetup(demoFile);
export const demoInstrument = instrumentOf(demo);

/** Its notes as they are written: in a sentence, on a chart, in a table beside their numbers. */
export const note = (n: number): string => noteText(n, demoInstrument);
export const noteMark = (n: number): string => noteLabel(n, demoInstrument);
export const noteName = (n: number): string => partialName(n, demoInstrument);

/** The trade's usual starting point, about a tenth of an inch (common practice, no source). */
export const referenceGapMm = 2.54;
export const mostGapMm = 8;
