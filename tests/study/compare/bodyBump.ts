/** A bump in a body whose bell has curved fronts: the sensitivity to it held against two such instruments. */
import { expect } from "vitest";
import type { Setup } from "../../../src/setup/setup.ts";
import { boreSensitivity } from "../../../src/study/compare/boreSensitivity.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();

/** @param fromMm the bump is at the first place beyond, from the start of the body */
export function expectBodyBumpAsTwo(fromMm: number): void {
  const curved = (of: Setup): Setup => ({ ...of, model: { ...of.model, bell: "multimodal" } });
  const { places, modes } = boreSensitivity(new Instrument(curved(setup)), 2.5, { extentMm: 20 });
  const at = places.findIndex(({ part, positionMm }) => part === "body" && positionMm > fromMm);
  const { profileMm } = setup.body;
  const bumped = (by: number): Setup => {
    const d = (x: number) => {
      const i = Math.max(
        1,
        profileMm.findIndex(([to]) => to >= x),
      );
      const [[x0, d0], [x1, d1]] = [profileMm[i - 1], profileMm[i]];
      return d0 + ((d1 - d0) * (x - x0)) / (x1 - x0);
    };
    const { positionMm } = places[at];
    const foot = places[at + 1].positionMm - positionMm;
    const hat = (x: number) => by * Math.max(0, 1 - Math.abs(x - positionMm) / foot);
    const xs = new Set([...profileMm.map(([x]) => x), positionMm - foot, positionMm, positionMm + foot]);
    const points = [...xs].sort((a, b) => a - b).map((x) => [x, d(x) + hat(x)] as const);
    return curved({ ...setup, body: { ...setup.body, profileMm: points } });
  };
  const [less, more] = [-0.05, 0.05].map((by) => new Instrument(bumped(by)).modes(2.5));
  const largest = Math.max(...modes.map(({ centsPerMm }) => Math.abs(centsPerMm[at])));
  expect(modes).toHaveLength(12);
  modes.forEach((mode, i) => {
    const byTwo = cents(more[i].frequencyHz, less[i].frequencyHz) / 0.1;
    expect(Math.abs(mode.centsPerMm[at] - byTwo) / largest).toBeLessThan(fromMm < 700 ? 5e-3 : 1e-2);
  });
  expect(places[places.length - 1].positionMm).toBeCloseTo(profileMm[profileMm.length - 1][0], 6);
}
