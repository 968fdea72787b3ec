import { readSetup } from "../../src/setup/readSetup.ts";
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
