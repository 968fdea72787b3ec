import { describe, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { demo } from "../setups.ts";
import { expectBodyAsTwoBores, expectPointAsTwoBores } from "./twoBores.ts";

describe("gradient along a bore whose bell has curved fronts", () => {
  const multimodal = new AirColumn(withBell(demo(), "multimodal"), 30, 1700);
  it.each([
    [["leadpipe", 2, 2.5, 0]],
    [["body", 20, 2.5, 0.01]],
    [["body", 60, 2.5, 0], 1e-2],
    [["body", 100, 2.5, 0.01], 1e-2],
    [["body", 106, 2.5, 0], 1e-2],
  ] as const)("%s: as two instruments", (place, within?) => {
    expectPointAsTwoBores(place, multimodal, within);
  });

  it.each(["tenor-trombone-small", "horn-f"])(
    "summed over the body is what widening all of it does: %s",
    (name) => {
      expectBodyAsTwoBores(name);
    },
  );
});
