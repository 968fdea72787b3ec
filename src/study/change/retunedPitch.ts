/** What is left of a change of pitch once the slide is set again, as a test; null where or while that is not known. */
import type { Setup } from "../../setup/setup.ts";
import { betweenGaps } from "../instrument/betweenGaps.ts";
import type { Explored } from "../instrument/exploration.ts";
import type { GapSweep } from "../instrument/gapSweep.ts";
import { isPlayed, judgedTest, type Test } from "./verdicts.ts";

export function retunedPitch(
  { chosen, reference, uncertainty }: Pick<Explored, "chosen" | "reference" | "uncertainty">,
  retuned: GapSweep | null,
  { cents }: Setup["thresholds"],
): Test | null {
  const between = retuned?.referenceGapMm === reference.gapMm ? betweenGaps(retuned, chosen.gapMm) : null;
  const changes = between?.filter(isPlayed).map(({ n, shiftCents }) => ({
    n,
    change: shiftCents,
    expanded: uncertainty?.modes.find((mode) => mode.n === n)?.retunedCents?.expanded ?? null,
  }));
  if (!changes || changes.length === 0) return null;
  return judgedTest({
    quantity: "retuned-pitch",
    of: "resonance",
    changes,
    doubt: "expanded",
    unit: "cents",
    threshold: cents,
    asked: 0,
  });
}
