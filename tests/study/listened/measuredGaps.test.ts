import { describe, expect, it } from "vitest";
import type { KeptTake, Measured } from "../../../src/listen/keptTake.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { wilsonInterval } from "../../../src/statistics/wilsonInterval.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { slotsAt } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import {
  besideModel,
  besideShares,
  modelChange,
  modelStart,
} from "../../../src/study/listened/besideModel.ts";
import { listenedNotes, repeatsNeeded, type TakeAtGap } from "../../../src/study/listened/measuredGaps.ts";
import { nextGapMm } from "../../../src/study/listened/order.ts";
import { besideSharesWords, besideStartWords } from "../../../src/words/listen/besideWords.ts";
import { listenedWords } from "../../../src/words/listen/measuredWords.ts";
import { thirdVoice } from "../../../src/words/verdicts/thirdVoice.ts";

let count = 0;
function take(gapMm: number, measured: Measured, partial = 4): TakeAtGap {
  const id = `take ${++count}`;
  const toPartial = measured.test === "slur" ? partial + 1 : null;
  const rest = { warnings: [], hasSound: false };
  const kept: KeptTake = {
    id,
    at: "2026-03-01T09:00:00.000Z",
    partial,
    toPartial,
    gapMm,
    blind: null,
    measured,
    ...rest,
  };
  return { gapMm, take: kept };
}

const slot = (low: readonly number[], high: readonly number[]): Measured => ({
  test: "slot",
  restHz: 466,
  lowCents: low,
  highCents: high,
  broke: low.length + high.length,
});
const noteHz = () => 466.1638;
const only = (takes: readonly TakeAtGap[]) => listenedNotes(takes, noteHz)[0];

describe("slots at two gaps", () => {
  it("of single takes rest on the scatter of their bends, about each side's own mean", () => {
    const note = only([take(2.5, slot([-62, -58], [40, 44])), take(3, slot([-60, -64], [45, 49]))]);
    // widths 102 and 109; four pairs with variances of 8, 8, 8, 8: s² = 8 with 4 degrees of freedom
    expect(note.basis).toBe("bends");
    expect(note.scatter).toEqual({ value: Math.sqrt(8), df: 4 });
    expect(note.gaps.map(({ value }) => value)).toEqual([102, 109]);
    // t(0.975, 4) = 2.776445 (any table of Student's t); each width rests on two and two bends
    const half = 2.776445 * Math.sqrt(8);
    expect(note.gaps[0].interval![1] - 102).toBeCloseTo(half, 4);
    expect(note.change!.value).toBe(7);
    expect(note.change!.interval[1] - 7).toBeCloseTo(half * Math.SQRT2, 4);
    expect(note.change!.isFound).toBe(false);
    // t(0.8, 4) = 0.940965
    expect(note.change!.detectable).toBeCloseTo((2.776445 + 0.940965) * Math.sqrt(16), 4);
  });

  it("of several takes rest on the scatter from take to take, which bends do not have in them", () => {
    const note = only([
      take(2.5, slot([-60], [40])),
      take(3, slot([-70], [60])),
      take(3, slot([-70], [62])),
      take(2.5, slot([-62], [40])),
    ]);
    expect(note).toMatchObject({ basis: "takes", scatter: { value: Math.SQRT2, df: 2 } });
    expect(note.change).toMatchObject({ value: 30, isFound: true });
    expect(note.gaps.map(({ takes }) => takes)).toEqual([2, 2]);
  });

  it("say nothing of what was never repeated, and leave out a slot with one end", () => {
    const note = only([take(2.5, slot([-60], [40])), take(3, slot([-70], [60])), take(3, slot([-70], []))]);
    expect(note).toMatchObject({ basis: "none", change: null, scatter: null });
    expect(note.gaps.every(({ interval }) => interval === null)).toBe(true);
    expect(listenedNotes([take(3, slot([-70], []))], noteHz)).toEqual([]);
  });

  it("keep notes and tests apart", () => {
    const takes = [
      take(2.5, slot([-1], [1])),
      take(2.5, slot([-1], [1]), 5),
      take(2.5, { test: "attack", missed: 1, of: 9 }),
    ];
    expect(listenedNotes(takes, noteHz)).toHaveLength(3);
  });
});

describe("shares at two gaps", () => {
  it("have Wilson's interval each and Newcombe's of their difference", () => {
    const share = (missed: number, of: number): Measured => ({ test: "slur", missed, of });
    // Newcombe 1998, table II, example (a): 56 of 70 less 48 of 80, 0.0524 to 0.3339 by method 10
    const note = only([take(1, share(48, 80)), take(2, share(56, 70))]);
    expect(note.change!.value).toBeCloseTo(0.2, 12);
    expect(note.change!.interval[0]).toBeCloseTo(0.0524, 4);
    expect(note.change!.interval[1]).toBeCloseTo(0.3339, 4);
    expect(note.change!.isFound).toBe(true);
  });
});

describe("a plan", () => {
  it("asks for as many repeats as find a difference four times in five", () => {
    // two groups, difference of one standard deviation, two-sided 0.05, power 0.8: 17 each (Cohen 1988, table 2.3.5)
    expect(repeatsNeeded(10, 10)).toBe(17);
    expect(repeatsNeeded(10, 20)).toBeLessThan(8);
    expect(repeatsNeeded(10, 0.1)).toBeNull();
  });

  it("goes there and back again", () => {
    expect(nextGapMm([2, 2])).toBeNull();
    expect(nextGapMm([2, 3])).toBe(3);
    const played = [1, 2, 3];
    while (played.length < 9) played.push(nextGapMm(played)!);
    expect([1, 2, 3].map((gap) => played.filter((one) => one === gap).length)).toEqual([3, 3, 3]);
    expect(played.slice(3, 6)).toEqual([3, 2, 1]);
  });
});

describe("the third voice", () => {
  it("names values, what was found, and what would have been", () => {
    const note = only([take(2.54, slot([-62, -58], [40, 44])), take(3.048, slot([-60, -64], [45, 49]))]);
    expect(listenedWords(note, "in", "b-flat-trumpet")).toBe(
      "Slot of C in the staff (4): 109 ± 8 cents at 0.120 in, 102 ± 8 cents at 0.100 in: no difference found; one of 15 cents would have been.",
    );
  });

  it("says how large a difference that was found is", () => {
    const wide = [take(2, slot([-60, -61], [40, 41])), take(3, slot([-80, -81], [60, 61]))];
    expect(listenedWords(only(wide), "mm", "b-flat-trumpet")).toMatch(/: 40 ± \d cents wider at 3\.00 mm\.$/);
  });

  it("asks for a second gap, and for repeats", () => {
    expect(listenedWords(only([take(2, slot([-60, -61], [40, 41]))]), "mm")).toMatch(
      /second gap to compare\.$/,
    );
    expect(listenedWords(only([take(2, slot([-6], [4])), take(3, slot([-6], [4]))]), "mm")).toMatch(
      /take each gap again\.$/,
    );
  });
});

describe("the model beside it", () => {
  const change = (value: number, half: number) => {
    const at = { gapMm: 2, takes: 2, repeats: 2, value: 0, interval: null } as const;
    const isFound = Math.abs(value) > half;
    return {
      from: at,
      to: { ...at, gapMm: 3 },
      value,
      interval: [value - half, value + half],
      isFound,
      detectable: 1,
    } as const;
  };

  it("agrees, disagrees, or is too small to tell", () => {
    expect(besideModel(change(20, 10), 15)).toBe("agrees");
    expect(besideModel(change(20, 10), 1)).toBe("disagrees");
    expect(besideModel(change(5, 10), 1)).toBe("cannot-tell");
    expect(besideModel(change(5, 10), -40)).toBe("disagrees");
  });

  it("of shares has an interval of its own", () => {
    const share = (missed: number, of: number) => ({
      chance: missed / of,
      interval: wilsonInterval(missed, of),
    });
    expect(besideShares(change(0.4, 0.2), { from: share(8, 80), to: share(40, 80) })).toBe("agrees");
    expect(besideShares(change(0.4, 0.2), { from: share(8, 80), to: share(9, 80) })).toBe("disagrees");
    expect(besideShares(change(0.1, 0.2), { from: share(8, 80), to: share(9, 80) })).toBe("cannot-tell");
    // a difference was found, and so many modelled slurs cannot tell theirs apart
    expect(besideShares(change(0.15, 0.1), { from: share(2, 20), to: share(5, 20) })).toBe("cannot-tell");
    const shares = { from: share(8, 80), to: share(9, 80) };
    expect(besideSharesWords("cannot-tell", shares, [2, 3], 100, "mm")).toMatch(
      /^Modelled lips that err by 100 cents: 11 % missed \(6 to 20 %\) at 3\.00 mm, 10 % missed .* at 2\.00 mm: so many slurs cannot tell the two apart\.$/,
    );
  });

  it("of attacks is the starting pressure and the margin, which count no misses", async () => {
    const instrument = new Instrument(await standIn("b-flat-trumpet"), { modes: MODAL_COUNT });
    const slots = [2, 3].map((gapMm) => slotsAt(instrument, gapMm, { referenceGapMm: 2 }));
    const start = modelStart(slots, 4, change(0, 1))!;
    const [one, other] = slots.map(({ notes }) => notes.find(({ n }) => n === 4)!);
    expect(start.percent).toBeCloseTo(100 * (other.onset!.mouthPressure / one.onset!.mouthPressure - 1), 9);
    expect(start.margin).toBeCloseTo(other.slot!.margin! - one.slot!.margin!, 9);
    expect(modelStart(slots.slice(0, 1), 4, change(0, 1))).toBeNull();
    expect(modelStart(slots, 40, change(0, 1))).toBeNull();
    expect(besideStartWords(start, 10)).toMatch(
      /^The model counts no missed attacks\. .*starting pressure by [+−]\d\.\d %: too small to notice \(just noticeable: 10 %\)\./,
    );
  });

  it("is read between the gaps it was worked out for, and not beyond", () => {
    const widths = [
      { gapMm: 1, cents: 100 },
      { gapMm: 3, cents: 110 },
    ];
    expect(modelChange(widths, change(1, 1))).toBeCloseTo(5, 12);
    expect(modelChange(widths.slice(0, 1), change(1, 1))).toBeNull();
    expect(modelChange([], change(1, 1))).toBeNull();
  });
});

describe("beside a rule and the model", () => {
  const notes = listenedNotes(
    [
      take(2, slot([-60, -61], [40, 41])),
      take(3, slot([-80, -81], [60, 61])),
      take(2, { test: "attack", missed: 1, of: 9 }),
    ],
    noteHz,
  );

  it("is what was measured for the claim, where two gaps were heard", () => {
    expect(thirdVoice("slots", notes, "mm")!.measured).toMatch(/^Slot of partial 4: .* wider at 3\.00 mm\.$/);
    expect(thirdVoice("attack", notes, "mm")).toMatchObject({
      measured: null,
      how: expect.stringContaining("not measured yet"),
    });
    expect(thirdVoice("resistance", notes, "mm")).toBeNull();
  });
});
