/**
 * Which task the page shows, in the address after `#`: `#explore`, `#edit`. A shared document may stand beside it,
 * `#edit&s=…`; it is taken out once and the address then shows the task alone, so that a reload keeps later work.
 */
import { Observable } from "../state/observable.ts";

/** The tasks there are; the first is where a person starts. */
export const TASKS = [
  "explore",
  "edit",
  "jobs",
  "measure",
  "fit",
  "play",
  "listen",
  "resonances",
  "trial",
  "cut",
  "sheet",
  "compare",
  "learn",
] as const;
export type Task = (typeof TASKS)[number];

export interface Route {
  readonly task: Task;
}

/** What an address says: a task (the first where it names none we know) and the shared document's text, if any. */
export function readHash(hash: string): { task: Task; shared: string | null } {
  const parts = hash.replace(/^#\/?/, "").split("&");
  const task = TASKS.find((name) => parts.includes(name)) ?? TASKS[0];
  const shared = parts.find((part) => part.startsWith("s="));
  return { task, shared: shared === undefined ? null : shared.slice(2) };
}

export const writeHash = (task: Task, shared?: string): string => `#${task}${shared ? `&s=${shared}` : ""}`;

export class Router extends Observable<Route> {
  readonly #window: Window;
  readonly #onShared: (text: string) => void;

  /** @param onShared told of every shared document that an address brings, also the first */
  constructor(onShared: (text: string) => void, page: Window = window) {
    super({ task: readHash(page.location.hash).task });
    this.#window = page;
    this.#onShared = onShared;
  }

  /** Reads the address now and whenever it changes. */
  start(): void {
    this.#window.addEventListener("hashchange", () => this.#read());
    this.#read();
  }

  go(task: Task): void {
    if (task !== this.value.task) this.#window.location.hash = writeHash(task);
  }

  #read(): void {
    const { task, shared } = readHash(this.#window.location.hash);
    if (task !== this.value.task) this.change({ task });
    if (shared === null) return;
    this.#window.history.replaceState(this.#window.history.state, "", writeHash(task));
    this.#onShared(shared);
  }
}
