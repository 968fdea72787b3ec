/** `annulus modes` for a thousand setups as one stream: the demo with a gap and a leadpipe of its own each; one core. */
import { spawnSync } from "node:child_process";
import { writeSetup } from "../../src/setup/file/writeSetup.ts";
import { demo } from "../acoustics/setups.ts";
import type { Row } from "./bench.ts";

const SETUPS = 1000;

export function streamRows(): Row[] {
  const setup = demo();
  const lines = Array.from({ length: SETUPS }, (_, i) => {
    const part = i / SETUPS;
    return JSON.stringify(
      writeSetup({
        ...setup,
        mouthpiece: { ...setup.mouthpiece, insertionMm: setup.mouthpiece.insertionMm - 2 * part },
        leadpipe: {
          profileMm: setup.leadpipe.profileMm.map(([x, d]) => [x, d * (1 + 0.02 * part)] as const),
        },
      }),
    );
  });
  const start = performance.now();
  const { stdout, status } = spawnSync(
    process.execPath,
    ["bin/annulus.mjs", "modes", "-", "--format", "json"],
    { input: lines.join("\n"), encoding: "utf8", maxBuffer: 2 ** 28 },
  );
  const ms = performance.now() - start;
  if (status !== 0 || stdout.trimEnd().split("\n").length !== SETUPS)
    throw new Error("an answer a line was expected");
  return [
    {
      name: `modes for ${SETUPS} setups as one stream, each`,
      value: ms / SETUPS,
      goal: 4,
      unit: "ms",
      better: "less",
    },
  ];
}
