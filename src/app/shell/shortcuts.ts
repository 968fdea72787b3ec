/** Undo and redo from the keyboard, except in a text field, which has its own. */
import type { Store } from "../state/store.ts";

export function undoByKeys(page: Window, store: Store, signal: AbortSignal): void {
  page.addEventListener(
    "keydown",
    (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event)) return;
      const key = event.key.toLowerCase();
      const redo = key === "y" || (key === "z" && event.shiftKey);
      if (!redo && key !== "z") return;
      event.preventDefault();
      if (redo) store.redo();
      else store.undo();
    },
    { signal },
  );
}

function isTyping(event: Event): boolean {
  const target = event.composedPath()[0];
  if (target instanceof HTMLTextAreaElement) return true;
  if (target instanceof HTMLInputElement)
    return !["range", "checkbox", "radio", "button"].includes(target.type);
  return target instanceof HTMLElement && target.isContentEditable;
}
