/** A stream that peaks are computed under: 0, still air, unless it is asked for. */
import { Option } from "commander";
import { numberParser } from "./numberText.ts";

/** Used by every command whose answer rests on the peaks. */
export const breathOption = (): Option =>
  new Option(
    "--breath <litres per minute>",
    "air flowing through while it sounds, usually 5 to 40; 0 is still air",
  )
    .argParser(litresPerMinute)
    .default(0);

const litresPerMinute = numberParser(
  (flow) => flow >= 0 && flow < Infinity,
  "give litres per minute from 0 (still air), such as 20.",
);
