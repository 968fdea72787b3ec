import type { Setup } from "../../setup/setup.ts";

/** Parts of a setup that the model computes with; a new name is no new instrument. */
const PARTS = [
  "air",
  "mouthpiece",
  "receiver",
  "leadpipe",
  "body",
  "model",
  "thresholds",
  "uncertainties",
  "provenance",
] as const;

/** The same parts as text: equal for setups that the model answers alike, whenever they were read. */
export const textToModel = (setup: Setup): string => JSON.stringify(PARTS.map((part) => setup[part]));

/** Whether the model would answer the same for both: their parts are the very same objects. */
export const sameToModel = (a: Setup, b: Setup): boolean => PARTS.every((part) => a[part] === b[part]);
