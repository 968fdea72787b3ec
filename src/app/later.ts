/** What the first curve does not wait for: fetched in one piece once that is on the screen, so that whatever a person asks for is there. */
import "./chart/projector.ts";
import "./shell/offline.ts";
import "./state/keeping/setupFile.ts";
import "./state/keeping/shareLink.ts";
import "./state/record/jobFile.ts";
import "./tasks/explore/uncertainty.ts";
