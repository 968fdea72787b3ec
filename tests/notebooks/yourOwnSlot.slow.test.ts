// @vitest-environment jsdom
/** Takes of four instruments listened to, held against what they were made with. */
import { describe, expect, it } from "vitest";
import { INVENTED } from "../../notebooks/your-own-slot/invented.ts";
import { heardInvented } from "./heardInvented.ts";

describe("the invented take", () => {
  it.each([
    [4, "b-flat-trumpet"],
    [8, "c-trumpet"],
    [3, "horn-f"],
    [2, "tuba"],
  ] as const)("of note %i on a %s has the edges it was made with", async (partial, kind) => {
    const { take } = await heardInvented(partial, kind);
    if (take.test !== "slot" || !take.slot) throw new Error("no slot was found");
    const { low, high } = take.slot;
    expect([low?.count, high?.count]).toEqual([3, 3]);
    // the mean of three ends that scatter by 10 cents, and the 8 cents an edge is told to
    expect(Math.abs(low!.cents - INVENTED.lowCents)).toBeLessThan(
      8 + (2 * INVENTED.scatterCents) / Math.sqrt(3),
    );
    expect(Math.abs(high!.cents - INVENTED.highCents)).toBeLessThan(
      8 + (2 * INVENTED.scatterCents) / Math.sqrt(3),
    );
  });
});
