/**
 * Ties an element to something observable that an ancestor provides: the element is drawn again when it changes.
 *
 *     readonly #store = new StoreController(this);
 *     render() { return html`${this.#store.state.document.gapMm}`; }
 */
import { type Context, ContextConsumer } from "@lit/context";
import type { LitElement, ReactiveController, ReactiveControllerHost } from "lit";
import type { Route, Router } from "../shell/route.ts";
import type { FeelKind, FeelState } from "../work/feelAsks.ts";
import type { FeelResults } from "../work/feelResults.ts";
import type { ModelResults, Results } from "../work/results.ts";
import { feelContext, openJobContext, resultsContext, routerContext, storeContext } from "./contexts.ts";
import type { Observable } from "./observable.ts";
import type { OpenJob, OpenJobState } from "./record/openJob.ts";
import type { State } from "./state.ts";
import type { Store } from "./store.ts";

export class ObservableController<T, O extends Observable<T>> implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  #observed: O | null = null;
  #unsubscribe: (() => void) | null = null;

  constructor(host: LitElement, context: Context<unknown, O>) {
    this.#host = host;
    new ContextConsumer(host, { context, callback: (observed) => this.#observe(observed) });
    host.addController(this);
  }

  /** What is observed; there from the element's first connection on. */
  get observed(): O {
    if (!this.#observed) throw new Error("nothing above this element provides what it asks for");
    return this.#observed;
  }

  get value(): T {
    return this.observed.value;
  }

  hostConnected(): void {
    if (this.#observed) this.#observe(this.#observed);
  }

  hostDisconnected(): void {
    this.#unsubscribe?.();
    this.#unsubscribe = null;
  }

  #observe(observed: O): void {
    this.#unsubscribe?.();
    this.#observed = observed;
    this.#unsubscribe = observed.subscribe(() => this.#host.requestUpdate());
    this.#host.requestUpdate();
    this.begun(observed);
  }

  /** It is being observed from now on. */
  protected begun(_: O): void {}
}

export class StoreController extends ObservableController<State, Store> {
  constructor(host: LitElement) {
    super(host, storeContext);
  }

  get store(): Store {
    return this.observed;
  }

  get state(): State {
    return this.value;
  }
}

export class ResultsController extends ObservableController<Results, ModelResults> {
  constructor(host: LitElement) {
    super(host, resultsContext);
  }

  get results(): Results {
    return this.value;
  }

  /** For its `stopSweeps` and `sweepAgain`. */
  get model(): ModelResults {
    return this.observed;
  }
}

/** Asks for some of how it feels for as long as its element is on the page. */
export class FeelController extends ObservableController<FeelState, FeelResults> {
  readonly #kinds: readonly FeelKind[];
  #release: (() => void) | null = null;

  constructor(host: LitElement, ...kinds: readonly FeelKind[]) {
    super(host, feelContext);
    this.#kinds = kinds;
  }

  get state(): FeelState {
    return this.value;
  }

  /** For its `stop` and `again`. */
  get feel(): FeelResults {
    return this.observed;
  }

  protected override begun(feel: FeelResults): void {
    this.#release?.();
    this.#release = feel.use(this.#kinds);
  }

  override hostDisconnected(): void {
    super.hostDisconnected();
    this.#release?.();
    this.#release = null;
  }
}

export class RouteController extends ObservableController<Route, Router> {
  constructor(host: LitElement) {
    super(host, routerContext);
  }

  get route(): Route {
    return this.value;
  }

  get router(): Router {
    return this.observed;
  }
}

export class OpenJobController extends ObservableController<OpenJobState, OpenJob> {
  constructor(host: LitElement) {
    super(host, openJobContext);
  }

  get state(): OpenJobState {
    return this.value;
  }

  /** For its `keep`, `begin` and `open`. */
  get job(): OpenJob {
    return this.observed;
  }
}
