/** Three leadpipes that nobody has made, on the demo with one gap: what the page's Compare offers to try. */
import { INVENTED } from "../../src/app/tasks/compare/candidates/inventedLeadpipes.ts";
import { openCompareWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import { leadpipeOfShape } from "../../src/setup/bore/leadpipeShape.ts";
import { withGap } from "../../src/setup/withGap.ts";
import type { Variant } from "../../src/study/compare/compare.ts";
import type { ComparedVariant } from "../../workers/instrument/compare.ts";
import { demo, referenceGapMm } from "../paper/demo.ts";
import { following } from "../paper/longWork.ts";

/** Resonance that all are brought to the same pitch by. */
export const tuned = 4;
/** Distance from a bump's peak to its foot, mm. */
export const bumpExtentMm = 10;

export const drawings: readonly Variant[] = INVENTED.map(({ name, shape }) => ({
  name: name.replace(" (invented)", ""),
  setup: withGap({ ...demo, name, leadpipe: { profileMm: leadpipeOfShape(shape) } }, referenceGapMm),
  gapMm: referenceGapMm,
}));

const client = new WorkerClient({ connect: openCompareWorker });

/** Course of the comparison, the first drawing the reference. */
export const comparison = following<readonly Variant[], readonly ComparedVariant[]>(
  (variants, tell, signal) =>
    client.run(
      "compare",
      variants[0].setup,
      { variants, reference: 0, retune: tuned, errorExtentMm: bumpExtentMm, withNotes: true },
      tell,
      signal,
    ),
);
