/** Keeps the page in the browser, so that it opens without a network, and says when a newer one is there. */
import { registerSW } from "virtual:pwa-register";
import type { Store } from "../state/store.ts";

export function keepForOffline(store: Store): void {
  const load = registerSW({
    onNeedRefresh() {
      store.say("note", "A newer version of this page is ready; your work is kept.", {
        label: "Load it",
        accept: () => void load(true),
      });
    },
  });
}
