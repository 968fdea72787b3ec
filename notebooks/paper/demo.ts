/** The invented instrument of the page's first visit, and the gap that changes are counted from. */
import demoFile from "../../shared/demo.setup.json" with { type: "json" };
import { readSetup } from "../../src/setup/readSetup.ts";
import type { Setup } from "../../src/setup/setup.ts";

export const demo: Setup = readSetup(demoFile);

/** The trade's usual starting point, about a tenth of an inch (common practice, no source). */
export const referenceGapMm = 2.54;
export const mostGapMm = 8;
