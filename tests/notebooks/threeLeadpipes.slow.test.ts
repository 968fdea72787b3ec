import { expect, it } from "vitest";
import { fitted, truthMm } from "./pipeMade.ts";

it("the pipe that was made is explained once the walls may be rough", () => {
  for (const suspect of ["gap and walls", "all three"]) {
    const { estimates, judgement } = fitted(suspect);
    const [low, high] = estimates[0].interval!;
    expect(truthMm).toBeGreaterThan(low);
    expect(truthMm).toBeLessThan(high);
    expect(judgement).toBe("sound");
  }
});
