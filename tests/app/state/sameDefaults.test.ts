/** Page and terminal ask the same of a setup where nobody says otherwise. */
import { Command } from "commander";
import { expect, test } from "vitest";
import { listed } from "../../../src/app/state/bench/candidates.ts";
import { readDesign } from "../../../src/app/state/bench/leadpipeDesign.ts";
import { commonGap } from "../../../src/app/state/bench/namedGaps.ts";
import { compareForm, EVERY } from "../../../src/app/state/notes/compare.ts";
import { documentOf } from "../../../src/app/state/store.ts";
import { type DesignCommandOptions, designCommand, designOptions } from "../../../src/cli/leadpipe/design.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { DESIGN_DEFAULTS, STATION_DEFAULTS } from "../../../src/study/design/designDefaults.ts";
import { parseLengthMm } from "../../../src/units/length.ts";
import { demo } from "../../acoustics/setups.ts";

const program = new Command();
designCommand(program);
const typed: DesignCommandOptions = program.commands[0].opts();
const goal = "cents2=0";

test.each([
  ["demo", demo()],
  ["large tenor trombone", await standIn("tenor-trombone-large")],
  ["tuba", await standIn("tuba")],
] as const)("a design for the %s begins with the same question", (_, setup) => {
  const read = (movesGap: boolean) =>
    readDesign({ ...compareForm.empty.design, goal, movesGap }, setup, setup.units).options!;
  const { seed, stepsEach } = DESIGN_DEFAULTS;
  expect({ seed, stepsEach, ...read(false) }).toEqual(designOptions(setup, { ...typed, goal }));
  const [leastMm, mostMm] = read(true).limits.gapMm!;
  const from = designOptions(setup, { ...typed, goal, gapFrom: `${leastMm}mm` });
  const to = designOptions(setup, { ...typed, goal, gapTo: `${mostMm}mm` });
  expect([from.limits.gapMm, to.limits.gapMm]).toEqual([
    [leastMm, mostMm],
    [leastMm, mostMm],
  ]);
});

test("stations of a mandrel are as far apart, and the setup stands at its own gap wherever the slider is", () => {
  expect(parseLengthMm(typed.every, "mm")).toBe(STATION_DEFAULTS.everyMm);
  expect(EVERY.usual).toBe(STATION_DEFAULTS.everyMm);
  expect(typed.part).toBe(STATION_DEFAULTS.part);
  const setup = demo();
  const moved = { ...documentOf(setup), gapMm: 6 };
  const [open] = listed(moved, commonGap(moved, "mm"));
  expect(open).toMatchObject({ setup, gapMm: gapMm(setup) });
});
