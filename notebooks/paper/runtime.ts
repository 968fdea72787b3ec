/**
 * What the kit's cells run on: the kit's own `define` on Observable's runtime, and the few names a cell finds without importing
 * them. The kit's standard library is not among them: most of it would be fetched from a network.
 */
import { type CellState, define as defineCell } from "observable:runtime/define.js";
import { observe as display } from "observable:runtime/display.js";
import { observe } from "observable:runtime/stdlib/generators/observe.js";
import { Runtime } from "@observablehq/runtime";
import { prose } from "./prose.ts";

const sheet = document.querySelector("main")!;

const module = new Runtime({
  /** Width of the sheet, px; a cell that draws with it is drawn anew when it changes. */
  width: () => observe(followWidth),
  /** What the kit makes of a `text/html` cell with figures in it. */
  htl: () => ({ html: prose }),
}).module();

/** Tells every new width; a sheet that is not laid out yet has none. */
function followWidth(tell: (width: number) => void): () => void {
  let last = 0;
  const observer = new ResizeObserver(([{ contentRect }]) => {
    if (contentRect.width === last || contentRect.width === 0) return;
    last = contentRect.width;
    tell(last);
  });
  observer.observe(sheet);
  return () => observer.disconnect();
}

/** Called by the page the kit writes, once a cell. Each cell says how far it is: pending, fulfilled, rejected. */
export const define = (state: CellState, definition: unknown): void =>
  defineCell(module, state, definition, (...about) => {
    const shown = display(...about);
    const { dataset } = state.root;
    return Object.assign(Object.create(shown), {
      pending() {
        dataset.state = "pending";
        shown.pending.call(this);
      },
      fulfilled(value: unknown) {
        dataset.state = "fulfilled";
        shown.fulfilled.call(this, value);
      },
      rejected(error: unknown) {
        dataset.state = "rejected";
        shown.rejected.call(this, error);
      },
    });
  });
