/** What the page begins with: the model's worker is started, and loads while the page's own code does. */
import "./shell/look/font.css";
import "./work/firstWorker.ts";

void import("./start.ts");
