/** What the page begins with: the model's worker is started, and loads while the page's own code does. */
import "./shell/look/standIn.css";
import { fetchTypeface } from "./shell/look/typeface.ts";
import { isAnythingKept } from "./state/keeping/shelfKey.ts";
import "./work/firstWorker.ts";

void import("./start.ts");
// on a later visit both come from what the browser keeps: what reads its work, and the letters
if (isAnythingKept()) import("./state/keeping/restored.ts").catch(() => {});
if (navigator.serviceWorker?.controller) fetchTypeface().catch(() => {});
