/** The spread of instruments like this one, held against whole instruments made up here and solved one by one. */

import { randomLcg, randomNormal } from "d3";
import { expect, test } from "vitest";
import { NORMAL_COVERAGE } from "../../../src/bench/measure/combinedUncertainty.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import type { ProfileMm, Setup } from "../../../src/setup/setup.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { changeUncertainty } from "../../../src/study/uncertainty/changeUncertainty.ts";
import { Contributions } from "../../../src/study/uncertainty/contributions.ts";
import { monteCarloSteps } from "../../../src/study/uncertainty/monteCarlo.ts";
import { demo } from "../../acoustics/setups.ts";

const REFERENCE_MM = 2.5;
const CHOSEN_MM = 4.5;

/** Its gap and mouthpiece are measured and exact, its receiver's taper, leadpipe and body a stand-in's. */
const standIn: Setup = {
  ...demo(),
  uncertainties: {},
  provenance: { leadpipe: "assumed", body: "assumed", "receiver.taper": "assumed" },
};

function firstOrder(setup: Setup) {
  const contributions = new Contributions(new Instrument(setup));
  const [from, to] = [contributions.at(REFERENCE_MM), contributions.at(CHOSEN_MM)];
  return changeUncertainty(contributions.dimensions, from, to, NORMAL_COVERAGE).modes;
}

/** A whole instrument with three slow curves and a stretch of its own in each bore, as a file, read and solved afresh. */
function shiftsOfAnother(normal: () => number): readonly number[] {
  const bore = (profileMm: ProfileMm, ofDiameters: number, ofLengthMm: number) => {
    const [a, b, c] = [normal(), normal(), normal()].map((z) => z * ofDiameters);
    const byMm = normal() * ofLengthMm;
    const lengthMm = profileMm[profileMm.length - 1][0];
    return profileMm.map(([xMm, dMm]) => {
      const t = xMm / lengthMm;
      const wider = 1 + a + b * Math.cos(Math.PI * t) + c * Math.cos(2 * Math.PI * t);
      return [xMm * (1 + byMm / lengthMm), dMm * wider];
    });
  };
  const file = writeSetup(standIn) as Record<string, Record<string, unknown>>;
  const another = new Instrument(
    readSetup({
      ...file,
      leadpipe: { profile: bore(standIn.leadpipe.profileMm, 0.008, 3) },
      body: { ...file.body, profile: bore(standIn.body.profileMm, 0.012, 5) },
      receiver: { ...file.receiver, taper: standIn.receiver.taper + 0.001 * normal() },
    }),
  );
  const [from, to] = [another.modes(REFERENCE_MM), another.modes(CHOSEN_MM)];
  return to.map(({ frequencyHz }, i) => 1200 * Math.log2(frequencyHz / from[i].frequencyHz));
}

const standardDeviation = (values: readonly number[]): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
};

test("the spread of the population is that of whole instruments solved one by one", {
  timeout: 300_000,
}, () => {
  const count = 60;
  const normal = randomNormal.source(randomLcg(11))();
  const solved = Array.from({ length: count }, () => shiftsOfAnother(normal));
  const steps = monteCarloSteps(standIn, {
    gapMm: CHOSEN_MM,
    referenceGapMm: REFERENCE_MM,
    trials: count,
    seed: 3,
  });
  let step = steps.next();
  while (!step.done) step = steps.next();
  const drawn = step.value.modes;
  const modes = firstOrder(standIn).filter(({ n }) => n >= 2 && n <= 10);
  expect(modes).toHaveLength(9);
  // a standard deviation from N is good to 1/√(2(N−1)); four of them, for nine at once
  const tolerance = 4 / Math.sqrt(2 * (count - 1));
  for (const { n, shiftCents } of modes) {
    const spread = standardDeviation(solved.map((shifts) => shifts[n - 1]));
    expect(spread).toBeGreaterThan(0.005);
    expect(Math.abs(spread / shiftCents.standard - 1)).toBeLessThan(tolerance);
    expect(Math.abs(drawn[n - 1].shiftCents!.standard / shiftCents.standard - 1)).toBeLessThan(tolerance);
  }
});

test("an assumed gap is one instrument's at both gaps; a measured insertion is set anew at each", () => {
  const spreadOf = (provenance: Setup["provenance"], uncertainties: Setup["uncertainties"]) =>
    firstOrder({ ...standIn, provenance, uncertainties })[4].shiftCents.standard;
  const u = { "mouthpiece.insertion": { standard: 0.5, degreesOfFreedom: Infinity } };
  const measured = spreadOf({}, u);
  const assumed = spreadOf({ "mouthpiece.insertion": "assumed" }, {});
  expect(assumed).toBeGreaterThan(0);
  expect(assumed).toBeLessThan(measured / 2);
});
