/** What cannot be made of a sound, as data in the words of who refused it. */
import { InputError } from "../../src/units/inputError.ts";
import { OutOfRange } from "../../src/units/outOfRange.ts";
import type { Refusal } from "./served.ts";

export function refusing<T extends object>(work: () => T): T | Refusal {
  try {
    return work();
  } catch (error) {
    if (error instanceof InputError || error instanceof OutOfRange) return { refused: error.message };
    throw error;
  }
}
