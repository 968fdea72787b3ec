/** What the evanescent fields are worth: the demo with its junctions modal, and plane. */

import { type ChangedMode, modeChanges } from "../../src/study/change/modeChanges.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { inContext } from "../../src/study/instrument/modeTable.ts";
import { demo } from "../paper/demo.ts";

const modal = new Instrument(demo);
const plane = new Instrument({ ...demo, model: { ...demo.model, junction: "plane" } });

export interface JunctionEffect {
  /** Resonances with the fields, against those without, at the same gap. */
  readonly ofFields: readonly ChangedMode[];
  /** From a closed gap to this one: with the fields, and without. */
  readonly withFields: readonly ChangedMode[];
  readonly withoutFields: readonly ChangedMode[];
}

export function junctionEffect(gapMm: number): JunctionEffect {
  const change = (of: Instrument) => modeChanges(of.modes(gapMm), inContext(of.modes(0)));
  return {
    ofFields: modeChanges(modal.modes(gapMm), inContext(plane.modes(gapMm))),
    withFields: change(modal),
    withoutFields: change(plane),
  };
}
