/** What the page begins with: the model's worker is started, and loads while the page's own code does. */
import "./shell/look/standIn.css";
import { fetchTypeface } from "./shell/look/typeface.ts";
import "./work/firstWorker.ts";

void import("./start.ts");
// on a later visit the browser has kept them
if (navigator.serviceWorker?.controller) fetchTypeface().catch(() => {});
