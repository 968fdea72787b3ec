import { describe, expect, it } from "vitest";
import { jobDoubts } from "../../../src/app/state/bench/doubts.ts";
import { jobGaps } from "../../../src/app/state/bench/jobGaps.ts";
import { measureForm } from "../../../src/app/state/notes/measure.ts";
import { NO_NOTES } from "../../../src/app/state/notes/notes.ts";
import { documentOf } from "../../../src/app/state/store.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const read = (depth: string, insertion: string) => ({
  ...NO_NOTES,
  measure: {
    ...measureForm.empty,
    depth: [depth, depth, depth],
    insertion: [insertion, insertion, insertion],
  },
});

describe("what contradicts the gap of a job", () => {
  it("is nothing in the demo, nor where readings agree with it", () => {
    expect(jobDoubts({ setup, notes: NO_NOTES }, "mm")).toEqual([]);
    expect(jobDoubts({ setup, notes: read("24.54", "22.04") }, "mm")).toEqual([]);
  });

  it("is what the readings give, beside a file that goes with its diameters", () => {
    expect(jobDoubts({ setup, notes: read("24.54", "20.5") }, "mm")).toMatchObject([
      { givenBy: "readings", gapMm: expect.closeTo(4.04, 6) },
    ]);
  });

  it("is the file's own gap too, and is found whatever unit is shown", () => {
    const other = { ...setup, mouthpiece: { ...setup.mouthpiece, shankEndDiameterMm: 9.9 } };
    const doubts = jobDoubts({ setup: other, notes: read("24.54", "20.5") }, "mm");
    // 18 mm go in, so that 6.54 mm are foreseen, and the shank is too wide for either gap
    expect(doubts).toMatchObject([
      { kind: "wider-than-receiver", givenBy: "readings", foreseenMm: expect.closeTo(6.54, 6) },
      { kind: "wider-than-receiver", givenBy: "file", gapMm: expect.closeTo(2.54, 1) },
    ]);
    expect(jobDoubts({ setup: other, notes: read("24.54", "20.5") }, "in")).toEqual(doubts);
    expect(jobGaps({ ...documentOf(other), notes: NO_NOTES }, "mm").order.doubts).toMatchObject([
      { givenBy: "file" },
    ]);
  });
});
