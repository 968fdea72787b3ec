/** How an element anywhere in the page comes to the store, the model's results and the route: provided once, at the root. */
import { createContext } from "@lit/context";
import type { ModelResults } from "../model/results.ts";
import type { Router } from "../route.ts";
import type { Store } from "./store.ts";

export const storeContext = createContext<Store>(Symbol("store"));
export const resultsContext = createContext<ModelResults>(Symbol("results"));
export const routerContext = createContext<Router>(Symbol("router"));
