/** Taking hold of the shank or of a gap line: the gap follows the hand and is one undo step when it lets go. */
import type { Store } from "../../state/store.ts";
import { byHand } from "./gapSteps.ts";

/** @param gapAt the gap, mm, that a hand at this place asks for */
export function holdGap(
  host: HTMLElement,
  down: PointerEvent,
  store: Store,
  gapAt: (event: PointerEvent) => number,
): void {
  if (down.button !== 0) return;
  down.preventDefault();
  host.setPointerCapture(down.pointerId);
  const done = new AbortController();
  const options = { signal: done.signal };
  const end = () => {
    done.abort();
    host.classList.remove("held");
  };
  host.classList.add("held");
  host.addEventListener(
    "pointermove",
    (event) => {
      const { document, view } = store.state;
      store.setGap(byHand(document.setup, gapAt(event), view.unit), { commit: false });
    },
    options,
  );
  const letGo = () => {
    end();
    store.setGap(store.state.document.gapMm);
  };
  const giveUp = () => {
    end();
    store.cancel();
  };
  host.addEventListener("pointerup", letGo, options);
  host.addEventListener("lostpointercapture", letGo, options);
  host.addEventListener("pointercancel", giveUp, options);
  window.addEventListener("keydown", (event) => event.key === "Escape" && giveUp(), options);
}
