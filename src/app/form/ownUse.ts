/** Keys that mean something to what has the focus are none of a task's. */

/** A text is being typed, or a button, a link or a switch is to be pressed. */
export function hasOwnUse(event: Event): boolean {
  const target = event.composedPath()[0];
  if (target instanceof HTMLInputElement) return target.type !== "range";
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target.closest("button, a, select, textarea, summary, [tabindex]:not([data-play])") !== null)
  );
}
