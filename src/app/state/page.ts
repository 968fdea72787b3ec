/** What every element of the page can read and act on, provided once at the root; and the element that reads it. */
import { consume, createContext } from "@lit/context";
import type { Router } from "../shell/route.ts";
import type { ComparedGaps } from "../work/comparedGaps.ts";
import type { FeelResults } from "../work/feelResults.ts";
import type { ModelResults } from "../work/modelResults.ts";
import type { Backups } from "./backups/backups.ts";
import { FrameElement } from "./frameElement.ts";
import type { OpenJob } from "./record/openJob.ts";
import type { Store } from "./store.ts";

export interface Page {
  readonly store: Store;
  /** The two gaps that model and lips are asked about. */
  readonly compared: ComparedGaps;
  /** What the model says of them. */
  readonly model: ModelResults;
  /** How they feel. */
  readonly feel: FeelResults;
  /** The job that is open. */
  readonly job: OpenJob;
  /** What is made of all jobs, in files. */
  readonly backups: Backups;
  readonly router: Router;
}

export const pageContext = createContext<Page>(Symbol("page"));

export abstract class PageElement extends FrameElement {
  /** There from the first connection on. */
  @consume({ context: pageContext })
  readonly page!: Page;
}
