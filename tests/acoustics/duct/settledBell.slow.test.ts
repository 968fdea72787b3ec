/** The bell left to the program in every instrument there is: thirteen bells worked out. */
import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/setup/setup.ts";
import { STAND_INS, standIn } from "../../../src/setup/standIns.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../setups.ts";

const withBell = (setup: Setup, bell: Setup["model"]["bell"]): Setup => ({
  ...setup,
  model: { ...setup.model, bell },
});

describe("a bell left to the program", () => {
  it("follows curved fronts in the demo and every stand-in, as one that asks for them", async () => {
    const setups = [demo(), ...(await Promise.all(STAND_INS.map(standIn)))];
    expect(setups).toHaveLength(13);
    for (const setup of setups) {
      const left = new Instrument(withBell(setup, "automatic"), { modes: 10 });
      expect(left.setup.model.bell, setup.name).toBe("multimodal");
      const asked = new Instrument(withBell(setup, "multimodal"), { modes: 10 });
      expect(left.modes(left.gapMm)).toEqual(asked.modes(asked.gapMm));
    }
  });
});
