/** The invented instrument that a first visit begins with. */
import demoFile from "../../../../shared/demo.setup.json" with { type: "json" };
import { readSetup } from "../../../setup/readSetup.ts";
import type { Document } from "../state.ts";
import { firstVisit } from "../store.ts";
import { writeDocument } from "./documentFile.ts";

/** The demo in its own unit, two gaps compared. */
export const demoDocument = (): Document => firstVisit(readSetup(demoFile));

/** Whether it is the demo as it comes, which nobody misses. */
export const isDemo = (document: Document): boolean => written(document) === written(demoDocument());

/** Without the instrument's kind, which the demo did not always state. */
function written({ setup, ...document }: Document): string {
  const { instrument: _, ...stated } = setup;
  return JSON.stringify(writeDocument({ ...document, setup: stated }));
}
