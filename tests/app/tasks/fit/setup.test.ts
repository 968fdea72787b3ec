import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { AnyPart } from "../../../../src/app/tasks/fit/partTables.ts";
import { partsOfSetup, withPair } from "../../../../src/app/tasks/fit/setupParts.ts";
import { fitOf } from "../../../../src/bench/fit/fit.ts";
import type { FitDimensions, FitUncertainties } from "../../../../src/bench/fit/fitDimensions.ts";
import { readSetupText } from "../../../../src/setup/file/readSetup.ts";
import { gapMm, type Setup } from "../../../../src/setup/setup.ts";

const setup = readSetupText(readFileSync("shared/demo.setup.json", "utf8"));

function put(into: Setup, shank: Partial<AnyPart>, receiver: Partial<AnyPart> = {}) {
  const own = partsOfSetup(setup);
  const mouthpiece = { ...own.mouthpiece, uncertainties: {}, ...shank };
  const instrument = { ...own.instrument, uncertainties: {}, ...receiver };
  const dimensions = { ...mouthpiece.dimensions, ...instrument.dimensions } as FitDimensions;
  const uncertainties: FitUncertainties = { ...mouthpiece.uncertainties, ...instrument.uncertainties };
  const fit = fitOf(dimensions, { uncertainties });
  return { fit, taken: withPair(into, mouthpiece, instrument, fit) };
}

const shank = (shankEndDiameterMm: number, shankTaper = 0.05) => ({
  dimensions: { shankEndDiameterMm, shankTaper },
});

test("a setup's own pair has its dimensions, and put back makes the gap they say", () => {
  const { mouthpiece, instrument } = partsOfSetup(setup);
  expect(mouthpiece.dimensions).toEqual({ shankEndDiameterMm: 9.7, shankTaper: 0.05 });
  expect(instrument.dimensions).toEqual({ mouthDiameterMm: 10.8, receiverTaper: 0.05, depthMm: 24.5 });
  const { taken } = put(setup, {});
  if ("problem" in taken) throw new Error(taken.problem);
  expect(taken.setup.mouthpiece.insertionMm).toBe(22);
  expect(gapMm(taken.setup)).toBe(2.5);
});

test("insertion and depth in the setup are together as uncertain as the pair's gap", () => {
  const doubtful = { ...shank(9.66), uncertainties: { shankEndDiameterMm: 0.004, shankTaper: 0.0002 } };
  const { fit, taken } = put(setup, doubtful, { uncertainties: { mouthDiameterMm: 0.005, depthMm: 0.02 } });
  if ("problem" in taken) throw new Error(taken.problem);
  const u = (path: string) => taken.setup.uncertainties[path]?.standard;
  expect(u("mouthpiece.shankEndDiameter")).toBe(0.004);
  expect(u("receiver.taper")).toBeUndefined();
  expect(Math.hypot(u("mouthpiece.insertion")!, u("receiver.depth")!)).toBeCloseTo(
    fit.standardUncertaintyMm!,
    9,
  );
  const exact = put(taken.setup, shank(9.66)).taken;
  expect(exact).toMatchObject({ setup: { uncertainties: {} } });
});

test("a pair that makes no instrument, or has no gap, is refused in words", () => {
  expect(put(setup, shank(8.3)).taken).toEqual({
    problem: expect.stringMatching(/8\.[34].*bore|bore.*8\.4/),
  });
  expect(put(setup, shank(12)).taken).toEqual({ problem: expect.stringContaining("no gap") });
});
