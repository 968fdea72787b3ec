import { describe, expect, test } from "vitest";
import type { Setup } from "../../../src/setup/setup.ts";
import { OutOfRange } from "../../../src/units/outOfRange.ts";
import { Served } from "../../../workers/service/served.ts";

class Throwing extends Served<object> {
  protected subjectOf(_: Setup): object {
    return {};
  }
  answer(fault: () => Error) {
    return this.ask((): object => {
      throw fault();
    });
  }
}

describe("what a worker serves", () => {
  const served = async () => {
    const throwing = new Throwing();
    await throwing.load({} as Setup);
    return throwing;
  };

  test("says in the study's words what cannot be had", async () => {
    const answer = await (await served()).answer(() => new OutOfRange("no gap is as wide"));
    expect(answer).toEqual({ refused: "no gap is as wide" });
  });

  test("names a fault of ours as one, the language's own RangeError among them", async () => {
    const throwing = await served();
    const { refused } = (await throwing.answer(() => new RangeError("Invalid array length"))) as any;
    expect(refused).toMatch(/^The model failed, which is a fault in this program: .*Invalid array length/);
  });
});
