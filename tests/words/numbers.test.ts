import { expect, test } from "vitest";
import { nearestNote } from "../../src/words/notes.ts";
import { bothUnits, signed } from "../../src/words/numbers.ts";

test("numbers and notes", () => {
  expect(signed(-0.004, 2)).toBe("0.00");
  expect(signed(-1.25, 1)).toBe("−1.3");
  expect(bothUnits(2.54, "in")).toBe("0.100 in · 2.54 mm");
  expect(nearestNote(440)).toEqual({ name: "A4", hz: 440, cents: 0 });
  expect(nearestNote(116.54).name).toBe("B♭2");
  expect(nearestNote(261.6).name).toBe("C4");
});
