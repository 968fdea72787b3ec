/** The invented instrument that a first visit begins with. */
import demoFile from "../../../../shared/demo.setup.json" with { type: "json" };
import { setupOfShape } from "../../../setup/file/setupOfShape.ts";
import type { Setup } from "../../../setup/setup.ts";
import type { Document } from "../state.ts";
import { firstVisit } from "../store.ts";
import { writeDocument } from "./documentFile.ts";

/** The demo in its own unit, two gaps compared. Its file is the page's own: a test holds it against the schema, not every first visit. */
export const demoDocument = (): Document => firstVisit(setupOfShape(demoFile));

/** Whether it is the demo as it comes, which nobody misses. */
export const isDemo = (document: Document): boolean => written(document) === written(demoDocument());

/** Whether this is the demo's instrument, whatever gap is looked at. */
export const isDemoSetup = (setup: Setup): boolean => {
  if (setup !== lastAsked) {
    lastAsked = setup;
    isDemosOwn = JSON.stringify(setup) === JSON.stringify(demoDocument().setup);
  }
  return isDemosOwn;
};
let lastAsked: Setup | null = null;
let isDemosOwn = false;

/** Without the instrument's kind, which the demo did not always state. */
function written({ setup, ...document }: Document): string {
  const { instrument: _, ...stated } = setup;
  return JSON.stringify(writeDocument({ ...document, setup: stated }));
}
