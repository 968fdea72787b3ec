import { describe, expect, it } from "vitest";
import { TASKS } from "../../src/app/shell/route.ts";
import { nextTask, TASKS_IN_ORDER, welcomeAnswer } from "../../src/words/tasks.ts";

describe("the order of the work", () => {
  it("names every task that has an address, and Trial before Cut", () => {
    const order: readonly string[] = TASKS_IN_ORDER.map(({ task }) => task);
    expect([...order, "edit"].sort()).toEqual([...TASKS].sort());
    expect(order.indexOf("trial")).toBeLessThan(order.indexOf("cut"));
    expect(order[0]).toBe("jobs");
  });

  it("goes from each task to the one after it, and round", () => {
    const walked = TASKS_IN_ORDER.map(({ task }) => nextTask(task).task);
    expect(new Set(walked).size).toBe(TASKS_IN_ORDER.length);
    expect(nextTask("jobs").task).toBe("measure");
    expect(nextTask("learn").task).toBe("jobs");
  });

  it("puts the headline of the demo into one breath", () => {
    expect(welcomeAnswer("Opening the gap lowers pitch by 2 cents.", "Unlikely to be noticed.")).toBe(
      "On the demo instrument: opening the gap lowers pitch by 2 cents. Unlikely to be noticed.",
    );
  });
});
