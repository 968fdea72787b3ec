/** Code that is fetched after the first curve (`later.ts`), or when a person asks for it sooner. */
import type { Store } from "../state/store.ts";

export const setupFiles = () => import("../state/keeping/setupFile.ts");
export const shareLinks = () => import("../state/keeping/shareLink.ts");

/** Does what was asked for once its code is there; where it cannot be fetched, that is said. */
export function whenThere<Code>(code: Promise<Code>, store: Store, act: (code: Code) => void): void {
  code.then(act, () =>
    store.say("error", "Part of the page could not be loaded; load the page again. Your work is kept."),
  );
}
