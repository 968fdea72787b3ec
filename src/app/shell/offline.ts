/** Keeps the page in the browser, so that it opens without a network, and says when a newer one is there. */
import { registerSW } from "virtual:pwa-register";
import type { Store } from "../state/store.ts";
import { handAtRest } from "./handAtRest.ts";

/** Fetching the whole page takes a core for seconds: not while a newcomer's hand moves, nor while it is about to. */
const REST_MS = 5000;

export async function keepForOffline(store: Store): Promise<void> {
  await handAtRest(REST_MS);
  const load = registerSW({
    onNeedRefresh() {
      store.say("note", "A newer version of this page is ready; your work is kept.", {
        label: "Load it",
        accept: () => void load(true),
      });
    },
  });
}
