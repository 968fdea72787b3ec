/** How an element anywhere in the page comes to the store, the model's results, how it feels, the open job and the route: provided once, at the root. */
import { createContext } from "@lit/context";
import type { Router } from "../shell/route.ts";
import type { FeelResults } from "../work/feelResults.ts";
import type { ModelResults } from "../work/results.ts";
import type { OpenJob } from "./record/openJob.ts";
import type { Store } from "./store.ts";

export const storeContext = createContext<Store>(Symbol("store"));
export const resultsContext = createContext<ModelResults>(Symbol("results"));
export const feelContext = createContext<FeelResults>(Symbol("feel"));
export const routerContext = createContext<Router>(Symbol("router"));
export const openJobContext = createContext<OpenJob>(Symbol("open job"));
