/** A stream that peaks are computed under: 0, still air, unless it is asked for. */
import { InvalidArgumentError, Option } from "commander";

/** Used by every command whose answer rests on the peaks. */
export const breathOption = (): Option =>
  new Option(
    "--breath <litres per minute>",
    "air flowing through while it sounds, usually 5 to 40; 0 is still air",
  )
    .argParser(litresPerMinute)
    .default(0);

function litresPerMinute(text: string): number {
  const flow = text.trim() === "" ? Number.NaN : Number(text);
  if (!(flow >= 0 && flow < Infinity))
    throw new InvalidArgumentError("give litres per minute from 0 (still air), such as 20.");
  return flow;
}
