/** The bell left to the program in every instrument there is, and where fronts cannot be followed: bells worked out as far as is tried. */
import { describe, expect, it } from "vitest";
import { settledBell } from "../../../src/acoustics/duct/settledBell.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { STAND_INS, standIn } from "../../../src/setup/standIns.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../setups.ts";

const withBell = (setup: Setup, bell: Setup["model"]["bell"]): Setup => ({
  ...setup,
  model: { ...setup.model, bell },
});

/** One straight cone for a body: nobody drew its flare. */
const cone: Setup = {
  ...demo(),
  body: {
    profileMm: [
      [0, 11.68],
      [1030, 122],
    ],
  },
};

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

  it("is one of plane waves where fronts cannot be worked out, and says so; asked for by name it is refused", () => {
    const left = new Instrument(withBell(cone, "automatic"), { modes: 8 });
    expect(left.setup.model.bell).toBe("plane");
    expect(left.modes(2.5)).toEqual(new Instrument(withBell(cone, "plane"), { modes: 8 }).modes(2.5));
    expect(() => new Instrument(withBell(cone, "multimodal"), { modes: 8 })).toThrow(
      /cannot be worked out for this bell/,
    );
  });

  it("is one of plane waves for a curve that reaches above ka = 12 at the mouth", () => {
    expect(settledBell(withBell(demo(), "automatic"), 3000).model.bell).toBe("multimodal");
    expect(settledBell(withBell(demo(), "automatic"), 12_000).model.bell).toBe("plane");
  });
});
