import { expect, test } from "vitest";
import { sameData } from "../../../src/app/chart/sameData.ts";

test("the same numbers in new records and lists are the same data", () => {
  const heights = new Float64Array([1, 2]);
  const data = () => ({
    part: "leadpipe",
    variants: [{ n: 1, profileMm: [[0, 8.8]], heights }],
    around: null,
  });
  expect(sameData(data(), data())).toBe(true);
  expect(sameData(data(), { ...data(), around: 4 })).toBe(false);
  expect(sameData(data(), { ...data(), variants: [] })).toBe(false);
});

test("a part more, a part less or another by the same value is a difference", () => {
  expect(sameData({ hz: undefined }, {})).toBe(false);
  expect(sameData({}, { hz: undefined })).toBe(false);
  expect(sameData({ hz: undefined }, { mm: undefined })).toBe(false);
  expect(sameData([1, 2], { 0: 1, 1: 2 })).toBe(false);
  expect(sameData(null, {})).toBe(false);
  expect(sameData([Number.NaN], [Number.NaN])).toBe(true);
});

test("columns of numbers are held by identity", () => {
  expect(sameData(new Float64Array([1]), new Float64Array([1]))).toBe(false);
});
