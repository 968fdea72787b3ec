import { describe, expect, it } from "vitest";
import { settledBell } from "../../../src/acoustics/duct/settledBell.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { exampleFile } from "../../setup/example.ts";
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
  it("is what a file without one has; a file that names one keeps it", () => {
    const file = exampleFile();
    expect(readSetup({ ...file, model: {} }).model.bell).toBe("automatic");
    expect(readSetup({ ...file, model: { bell: "plane" } }).model.bell).toBe("plane");
    expect(settledBell(withBell(demo(), "plane"), 1000).model.bell).toBe("plane");
    expect(settledBell(withBell(cone, "multimodal"), 1000).model.bell).toBe("multimodal");
  });

  it("gives the same model each time, so that what a like instrument has is taken over", () => {
    const setup = withBell(demo(), "automatic");
    expect(settledBell(setup, 1000).model).toBe(settledBell(setup, 1200).model);
    const like = new Instrument(setup);
    const again = new Instrument({ ...setup, receiver: { ...setup.receiver, depthMm: 25 } }, { like });
    expect(again.column.fixedParts).toBe(like.column.fixedParts);
    expect(again.setup.model.bell).toBe("multimodal");
  });
});
