/** The breath an instrument is explored under, as a person types it: litres of air a minute, none for still air. */
import { quantity } from "../form/field.ts";
import { number } from "../form/quantity.ts";

/** The usual breath, with what is played hardest on the largest instruments within: common practice, no source. */
export const BREATH_LIMITS = { least: 0, most: 60 };

export const BREATH = quantity("Breath", { ...number, unit: "L/min" }, { ...BREATH_LIMITS, usual: 0 });
