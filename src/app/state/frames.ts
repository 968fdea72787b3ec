/** The page's frames, for everything that is drawn in them: asked of the browser once each, however many wait. */

let count = 0;
let next: Promise<void> | null = null;

/** Resolves as the next frame is made. */
export function nextFrame(): Promise<void> {
  next ??= new Promise((resolve) =>
    requestAnimationFrame(() => {
      next = null;
      count++;
      resolve();
    }),
  );
  return next;
}

/** Tells whether it is still the same frame: a number that is another in the next. */
export function frameNumber(): number {
  void nextFrame();
  return count;
}

/** Calls between frames, when there is nothing to draw, or after so long, ms; at once where the browser does not tell. */
export function whenIdle(act: () => void, latestMs: number): void {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(act, { timeout: latestMs });
  else act();
}
