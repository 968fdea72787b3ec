/** A bell whose curved fronts nobody has worked out yet: an instrument with another body each time, on one core. */
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../acoustics/setups.ts";
import { best, type Row } from "./bench.ts";

export function bellRows(): Row[] {
  const setup = demo();
  let wider = 1;
  const newBody = () => {
    wider += 1e-3;
    const profileMm = setup.body.profileMm.map(([x, d]) => [x, wider * d] as const);
    const { line } = new Instrument({ ...setup, body: { ...setup.body, profileMm } }).column;
    if (!line.hasCurvedFronts) throw new Error("a bell with curved fronts was expected");
  };
  return [
    {
      name: "a new body, with the curved fronts in its bell",
      value: best(3, newBody),
      goal: 0.3,
      unit: "s",
      better: "less",
    },
  ];
}
