/** A page that can be hidden and left. */
export function somePage() {
  const window = new EventTarget() as EventTarget & { document: EventTarget & { visibilityState: string } };
  window.document = Object.assign(new EventTarget(), { visibilityState: "visible" });
  return window as unknown as Window & typeof globalThis & typeof window;
}
