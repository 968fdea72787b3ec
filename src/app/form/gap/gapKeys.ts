/** Arrow keys on anything that stands for the gap; a run of them is one undo step. */

import { shownGaps } from "../../../setup/gapLimits.ts";
import type { Store } from "../../state/store.ts";
import { keyMove } from "./gapSteps.ts";

/** @param direction which way the gap goes when its handle goes right */
export const gapKeys = (store: () => Store, direction: 1 | -1) => ({
  keydown(event: KeyboardEvent): void {
    const { document, view } = store().state;
    const { leastMm, mostMm } = shownGaps(document.setup);
    const to =
      event.key === "Home" ? leastMm : event.key === "End" ? mostMm : keyMove(event, view.unit, direction);
    if (to === null) return;
    event.preventDefault();
    const isEnd = event.key === "Home" || event.key === "End";
    const wanted = isEnd ? to : Math.min(Math.max(mostMm, document.gapMm), document.gapMm + to);
    store().setGap(wanted, { commit: false });
  },
  keyup(): void {
    store().setGap(store().state.document.gapMm);
  },
});
