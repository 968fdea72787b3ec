/** The two packages behind the kit, of which only this much is used. */
declare module "@observablehq/runtime" {
  export class Runtime {
    constructor(builtins: Readonly<Record<string, () => unknown>>);
    module(): object;
  }
}
declare module "observable:runtime/define.js" {
  export interface CellState {
    readonly root: HTMLElement;
  }
  export interface Observer {
    pending(): void;
    fulfilled(value: unknown): void;
    rejected(error: unknown): void;
  }
  export function define(
    module: object,
    state: CellState,
    definition: unknown,
    observer: (...about: readonly unknown[]) => Observer,
  ): void;
}
declare module "observable:runtime/display.js" {
  import type { Observer } from "observable:runtime/define.js";
  /** Shows a cell's values in its place. */
  export function observe(...about: readonly unknown[]): Observer;
}
declare module "observable:runtime/stdlib/generators/observe.js" {
  export function observe<Value>(follow: (tell: (value: Value) => void) => () => void): AsyncGenerator<Value>;
}
