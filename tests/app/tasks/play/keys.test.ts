// @vitest-environment jsdom
import { afterEach, describe, expect, test, vi } from "vitest";
import { arrowMove, playByKeys } from "../../../../src/app/tasks/play/keys.ts";

const blown = { lipHz: 400, mouthPressure: 5000 };
const key = (name: string, more: KeyboardEventInit = {}) =>
  new KeyboardEvent("keydown", { key: name, bubbles: true, cancelable: true, composed: true, ...more });

describe("arrow keys", () => {
  test("move pitch by 10 cents and pressure by 0.1 kPa, with Shift by 50 and 0.5", () => {
    const centsOf = (event: KeyboardEvent) => 1200 * Math.log2(arrowMove(event, blown)!.lipHz! / blown.lipHz);
    expect(centsOf(key("ArrowRight"))).toBeCloseTo(10, 9);
    expect(centsOf(key("ArrowLeft", { shiftKey: true }))).toBeCloseTo(-50, 9);
    expect(arrowMove(key("ArrowUp"), blown)).toEqual({ mouthPressure: 5100 });
    expect(arrowMove(key("ArrowDown", { shiftKey: true }), blown)).toEqual({ mouthPressure: 4500 });
    expect(arrowMove(key("a"), blown)).toBeNull();
    expect(arrowMove(key("ArrowLeft", { altKey: true }), blown)).toBeNull();
  });
});

describe("keys anywhere on the page", () => {
  let leaving = new AbortController();
  afterEach(() => {
    leaving.abort();
    leaving = new AbortController();
    document.body.replaceChildren();
  });

  function commands() {
    const all = { stop: vi.fn(), toggle: vi.fn(), chooseNote: vi.fn() };
    playByKeys(window, all, leaving.signal);
    return all;
  }

  test("Space sounds and stops, a number chooses a note, Escape stops", () => {
    const { stop, toggle, chooseNote } = commands();
    for (const name of [" ", "4", "0", "1", "Escape", "x"]) document.body.dispatchEvent(key(name));
    document.body.dispatchEvent(key(" ", { repeat: true }));
    document.body.dispatchEvent(key("4", { ctrlKey: true }));
    expect(toggle).toHaveBeenCalledTimes(1);
    expect(chooseNote.mock.calls).toEqual([[4], [10]]);
    expect(stop).toHaveBeenCalledTimes(1);
  });

  test("text, buttons and links keep their keys, sliders and the pad lend them, Escape stops everywhere", () => {
    const { stop, toggle, chooseNote } = commands();
    document.body.innerHTML =
      '<input type="text"><button>x</button><a href="#">y</a><input type="range"><div tabindex="0" data-play></div>';
    for (const child of document.body.children)
      for (const name of [" ", "5", "Escape"]) child.dispatchEvent(key(name));
    expect(toggle).toHaveBeenCalledTimes(2);
    expect(chooseNote).toHaveBeenCalledTimes(2);
    expect(stop).toHaveBeenCalledTimes(5);
  });

  test("nothing is heard after leaving", () => {
    const { toggle } = commands();
    leaving.abort();
    document.body.dispatchEvent(key(" "));
    expect(toggle).not.toHaveBeenCalled();
  });
});
