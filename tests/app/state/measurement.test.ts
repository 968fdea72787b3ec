import { describe, expect, it, test } from "vitest";
import { withoutItem, withValue } from "../../../src/app/form/notesForm.ts";
import { outlyingRow, readMeasurement } from "../../../src/app/state/bench/measurement.ts";
import { type MeasureNotes, measureForm } from "../../../src/app/state/notes/measure.ts";
import { measureTable } from "../../../src/app/tasks/measure/measureTable.ts";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import { tableCsv } from "../../../src/charts/kit/tableCsv.ts";
import { adviceWords } from "../../../src/words/bench/gapAdvice.ts";

const notes = (part: Partial<MeasureNotes>): MeasureNotes => ({ ...measureForm.empty, ...part });
const tool = (part: Partial<MeasureNotes["depthTool"]>) => ({ ...measureForm.empty.depthTool, ...part });
const written = (...[notes, path, text]: Parameters<typeof withValue>) =>
  withValue(notes, path, text) as MeasureNotes;
const numbers = (texts: readonly string[]) =>
  readMeasurement(notes({ depth: texts })).depth.map(({ number }) => number);

describe("the rows of a length", () => {
  it("are three to begin with, and always one more than is filled, up to thirty", () => {
    expect(numbers([])).toEqual([1, 2, 3]);
    expect(numbers(["24", "24", "24"])).toEqual([1, 2, 3, 4]);
    expect(numbers(Array(30).fill("24"))).toHaveLength(30);
  });

  it("are numbered as the bench counts, past what is empty or cannot be read", () => {
    expect(numbers(["24", "", "24", "about 24", "24"])).toEqual([1, null, 2, null, 3, 4]);
    expect(numbers(["24", "twen"])).toEqual([1, 2, 3]);
    const read = readMeasurement(
      notes({ depth: ["24.53", "", "24.54", "24.55", "24.54", "24.95"], insertion: ["22"] }),
    );
    expect(read.measured!.advice.map((one) => adviceWords(one, "mm")).join()).toMatch(
      /depth reading number 5/,
    );
    expect(read.depth[outlyingRow(read, "depth")!]).toMatchObject({ text: "24.95", number: 5 });
    expect(outlyingRow(read, "insertion")).toBeUndefined();
  });
});

describe("what is typed", () => {
  it("gives the gap that the bench computes, from any way to write a length", () => {
    const { measured, uncounted } = readMeasurement(
      notes({
        depth: ["24,53", "0.9661 in", "24.55 mm"],
        insertion: ["22", "2.2 cm"],
        depthTool: tool({ resolution: "0.01", zero: "-0.02", zeroUncertainty: "0.005" }),
        insertionTool: tool({ resolution: "not looked at" }),
      }),
    );
    expect(uncounted).toBe(0);
    expect(measured).toEqual(
      gapFromReadings({
        depthMm: [24.53, 24.53894, 24.55],
        insertionMm: [22, 22],
        depthTool: { resolutionMm: 0.01, zeroMm: -0.02, zeroUncertaintyMm: 0.005 },
        sameTool: true,
      }),
    );
  });

  it("is shown wrong at its own place, and the rest counts", () => {
    const read = readMeasurement(
      notes({
        depth: ["24.5", "x"],
        insertion: ["-1", "22", "9 m"],
        depthTool: tool({ resolution: "-0.01" }),
        insertionTool: tool({ zero: "nought" }),
        sameTool: false,
      }),
    );
    expect(read.depth[1].problem).toMatch(/^"x" is not a length.*such as 2\.54 mm/);
    expect(read.insertion[0].problem).toMatch(/from 0 to 1000 mm/);
    expect(read.insertion[2].problem).toMatch(/from 0 to 1000 mm/);
    expect(read.toolProblems.depthTool.resolution).toMatch(
      /^The resolution of the depth is not a length of 0 mm/,
    );
    expect(read.toolProblems.insertionTool.zero).toMatch(/is not a length/);
    expect(read.uncounted).toBe(5);
    expect(read.measured!.gapMm).toBe(2.5);
  });

  it("is answered as soon as there is one reading of each, and not before", () => {
    expect(readMeasurement(notes({ depth: ["24.5"] })).measured).toBeUndefined();
    const { measured } = readMeasurement(notes({ depth: ["24.5"], insertion: ["22"] }));
    expect(measured).toMatchObject({ gapMm: 2.5, standardUncertaintyMm: undefined });
  });

  it("that cannot be together is refused in words", () => {
    const { measured, refused } = readMeasurement(
      notes({ depth: ["2"], insertion: ["1"], depthTool: tool({ zero: "3" }) }),
    );
    expect(measured).toBeUndefined();
    expect(refused).toMatch(/^The zero error of the depth is larger than its readings.*such as 0\.02 mm\.$/);
    const inches = notes({
      unit: "in",
      depth: ["0.08"],
      insertion: ["0.04"],
      depthTool: tool({ zero: "0.12" }),
    });
    expect(readMeasurement(inches).refused).toMatch(/what the tool shows at zero, such as 0\.001 in\.$/);
  });

  it("keeps its meaning under the other unit, and advice follows the unit", () => {
    const typed = notes({
      depth: ["20"],
      insertion: ["22", "22.01"],
      depthTool: tool({ resolution: "0.01" }),
    });
    const inches = readMeasurement(measureForm.shownIn(typed, "in"));
    expect(inches.measured!.gapMm).toBe(readMeasurement(typed).measured!.gapMm);
    expect(adviceWords(inches.measured!.advice[0], inches.unit)).toMatch(/-0\.079 in/);
    expect(inches.depth[0].text).toBe("20 mm");
  });
});

describe("writing it down", () => {
  test("a reading at a place of its own; nothing is kept after the last", () => {
    const second = written(measureForm.empty, ["depth", 1], "24");
    expect(second.depth).toEqual(["", "24"]);
    expect(written(second, ["depth", 1], " ").depth).toEqual([]);
    expect(written(second, ["depth", 0], "23").depth).toEqual(["23", "24"]);
    expect(second.insertion).toEqual([]);
  });

  test("taking one out moves the others up", () => {
    const taken = withoutItem(notes({ insertion: ["1", "2", "3"] }), ["insertion", 1]) as MeasureNotes;
    expect(taken.insertion).toEqual(["1", "3"]);
  });

  test("a part of a tool", () => {
    expect(written(measureForm.empty, ["insertionTool", "zero"], "0.1").insertionTool).toEqual(
      tool({ zero: "0.1" }),
    );
  });
});

describe("the table to take away", () => {
  const typed = notes({
    depth: ["24.53", "24.54", "24.55", "24.54", "24.95", "about 24"],
    insertion: ["22", "22.02"],
    depthTool: tool({ resolution: "0.01" }),
  });
  const read = readMeasurement(typed);
  const { columns, rows } = measureTable(read, typed);
  const row = (item: string) => rows.find(([name]) => name === item)!;

  it("has every reading, the result in both units, and the budget", () => {
    expect(columns).toEqual(["item", "mm", "in", "degrees of freedom", "share of variance", "note"]);
    expect(row("depth reading 5")).toEqual([
      "depth reading 5",
      24.95,
      24.95 / 25.4,
      "",
      "",
      "typed 24.95 (mm); stands apart from the others, counted",
    ]);
    expect(row("depth reading")[5]).toBe("typed about 24: not counted");
    const { measured } = read;
    expect(row("gap").slice(1, 3)).toEqual([measured!.gapMm, measured!.gapMm / 25.4]);
    expect(row("gap: standard uncertainty").slice(1, 4)).toEqual([
      measured!.standardUncertaintyMm,
      measured!.standardUncertaintyMm! / 25.4,
      measured!.degreesOfFreedom,
    ]);
    expect(row("gap: 95 % interval, low")[1]).toBe(measured!.intervalMm![0]);
    expect(row("budget, depth: step of the tool").slice(3)).toEqual([
      "infinite",
      measured!.budget[2].varianceShare,
      "",
    ]);
    expect(row("tool of both lengths: smallest step")[5]).toBe("typed 0.01 (mm)");
  });

  it("has a cell for every column and none that is no number", () => {
    expect(rows.length).toBeGreaterThan(0);
    for (const cells of rows) expect(cells).toHaveLength(columns.length);
    expect(tableCsv({ columns, rows })).not.toMatch(/NaN|undefined|Infinity/);
    const single = notes({ depth: ["24"], insertion: ["22"], sameTool: false });
    expect(tableCsv(measureTable(readMeasurement(single), single))).not.toMatch(/NaN|undefined|Infinity/);
  });
});
