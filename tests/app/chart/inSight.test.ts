import type { ReactiveController } from "lit";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { InSight } from "../../../src/app/chart/inSight.ts";
import type { FrameElement } from "../../../src/app/state/frameElement.ts";

/** A browser's observer, told by hand what is seen. */
class FakeObserver {
  static made: FakeObserver;
  readonly observed = new Set<Element>();
  readonly #told: (entries: { target: Element; isIntersecting: boolean }[]) => void;
  constructor(told: (entries: { target: Element; isIntersecting: boolean }[]) => void) {
    this.#told = told;
    FakeObserver.made = this;
  }
  observe(element: Element): void {
    this.observed.add(element);
  }
  disconnect(): void {
    this.observed.clear();
  }
  tell(target: Element, isIntersecting: boolean): void {
    this.#told([{ target, isIntersecting }]);
  }
}

describe("what is in sight", () => {
  beforeEach(() => {
    vi.useFakeTimers();
    vi.stubGlobal("IntersectionObserver", FakeObserver);
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  const sight = () => {
    const host = { requestUpdate: vi.fn(), addController: vi.fn() };
    const inSight: ReactiveController & InSight = new InSight(host as unknown as FrameElement);
    return { host, inSight };
  };

  it("may be seen until the browser has said otherwise, and asks to be drawn when it comes back", () => {
    const { host, inSight } = sight();
    const bar = {} as Element;
    expect(inSight.has(bar)).toBe(true);
    expect(FakeObserver.made.observed.has(bar)).toBe(true);
    FakeObserver.made.tell(bar, false);
    expect(inSight.has(bar)).toBe(false);
    expect(host.requestUpdate).not.toHaveBeenCalled();
    FakeObserver.made.tell(bar, true);
    expect(inSight.has(bar)).toBe(true);
    expect(host.requestUpdate).toHaveBeenCalledOnce();
  });

  it("draws the rest once, when the hand has rested, and not after the element has gone", () => {
    const { inSight } = sight();
    const draw = vi.fn();
    for (let step = 0; step < 5; step++) {
      inSight.atRest(() => draw(step));
      vi.advanceTimersByTime(100);
    }
    expect(draw).not.toHaveBeenCalled();
    vi.advanceTimersByTime(100);
    expect(draw.mock.calls).toEqual([[4]]);
    inSight.atRest(() => draw(9));
    inSight.hostDisconnected();
    vi.advanceTimersByTime(1000);
    expect(draw).toHaveBeenCalledOnce();
    expect(FakeObserver.made.observed.size).toBe(0);
  });
});
