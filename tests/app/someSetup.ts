import { readKeptSetup, readSetup } from "../../src/setup/file/readSetup.ts";
import { exampleFile } from "../setup/example.ts";

/** The example instrument, or the same with other receiver or mouthpiece lengths. */
export function someSetup(
  part: { insertion?: number; depth?: number; name?: string; units?: "mm" | "in" } = {},
) {
  const file = exampleFile();
  return readSetup({
    ...file,
    name: part.name ?? file.name,
    mouthpiece: { ...file.mouthpiece, insertion: part.insertion ?? file.mouthpiece.insertion },
    receiver: { ...file.receiver, depth: part.depth ?? file.receiver.depth },
  });
}

/** One that was kept when the limits were wider: its receiver and its insertion ten times too deep. */
export function flawedSetup() {
  const file = exampleFile();
  return readKeptSetup({
    ...file,
    receiver: { ...file.receiver, taper: 0.01, depth: 245.4 },
    mouthpiece: { ...file.mouthpiece, insertion: 200 },
  });
}
