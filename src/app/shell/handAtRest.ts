/** When a hand rests: what the machine is to be used for besides can begin. */

const TOUCHES = ["pointerdown", "pointermove", "keydown", "wheel"] as const;

/** Once nothing has been dragged, pressed, typed or turned on the page for so long, ms; a pointer that only passes over it is no hand. */
export function handAtRest(ms: number): Promise<void> {
  return new Promise((resolve) => {
    let touchedAt = performance.now();
    const onTouch = (event: Event) => {
      if (event.type !== "pointermove" || (event as PointerEvent).buttons !== 0)
        touchedAt = performance.now();
    };
    const look = () => {
      const waitMs = touchedAt + ms - performance.now();
      if (waitMs > 0) return void setTimeout(look, waitMs);
      for (const touch of TOUCHES) removeEventListener(touch, onTouch, { capture: true });
      resolve();
    };
    for (const touch of TOUCHES) addEventListener(touch, onTouch, { capture: true, passive: true });
    look();
  });
}
