/**
 * Notes and lines of work as they stand in the page.
 * @vitest-environment jsdom
 */
import { render } from "lit";
import { expect, it, vi } from "vitest";
import { notice, warning } from "../../../src/app/shell/look/notice.ts";
import { stoppedLine, workLine } from "../../../src/app/shell/look/workLine.ts";

const shown = (template: unknown): HTMLElement => {
  const place = document.createElement("div");
  render(template, place);
  return place;
};

it("a note has its words, and a role and an id only where they are given", () => {
  const note = shown(notice("Rest now.")).querySelector("p")!;
  expect(note.className).toBe("notice");
  expect(note.querySelector("span")!.textContent).toBe("Rest now.");
  expect(note.getAttributeNames().sort()).toEqual(["class"]);
  const wrong = shown(warning("It cannot be.", { role: "alert", testId: "refused" })).querySelector("p")!;
  expect(wrong.className).toBe("notice wrong");
  expect(wrong.getAttribute("role")).toBe("alert");
  expect(wrong.dataset.testid).toBe("refused");
});

it("a line of work says what and how far, and its button stops it", () => {
  const stop = vi.fn();
  const line = shown(workLine({ doing: "Step 3", label: "Fitting", share: 0.25, stop, stopId: "fit-stop" }));
  expect(line.querySelector("span")!.textContent).toBe("Step 3");
  const progress = line.querySelector("progress")!;
  expect([progress.value, progress.getAttribute("aria-label")]).toEqual([0.25, "Fitting"]);
  line.querySelector<HTMLElement>('[data-testid="fit-stop"]')!.click();
  expect(stop).toHaveBeenCalledTimes(1);
  // nobody knows how far it is: the bar has no value
  const unknown = shown(workLine({ doing: "Fitting", share: null, stop }));
  expect(unknown.querySelector("progress")!.hasAttribute("max")).toBe(false);
  expect(unknown.querySelector("button")!.hasAttribute("data-testid")).toBe(false);
});

it("what was stopped can go on", () => {
  const goOn = vi.fn();
  const line = shown(stoppedLine(goOn));
  expect(line.querySelector("span")!.textContent).toBe("Stopped.");
  line.querySelector("button")!.click();
  expect(goOn).toHaveBeenCalledTimes(1);
});
