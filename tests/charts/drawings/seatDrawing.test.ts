// @vitest-environment jsdom
import fc from "fast-check";
import { expect, test } from "vitest";
import { type SeatData, seatDrawing, seatTable } from "../../../src/charts/drawings/seatDrawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { description, laptop, text } from "../examples.ts";

const steeper: SeatData = {
  shankEndDiameterMm: 9.69,
  shankTaper: 0.053,
  mouthDiameterMm: 10.81,
  receiverTaper: 0.05,
  depthMm: 25.1,
  insertionMm: 21.132,
  contact: { touches: "mouth", contactLengthMm: 3.33, freeClearanceMm: 0.063 },
  words: "It touches at the receiver's face only.",
};
const flatter: SeatData = {
  ...steeper,
  shankTaper: 0.047,
  insertionMm: 22.4,
  contact: { touches: "end", contactLengthMm: 3.33, freeClearanceMm: 0.067 },
};

test.each([
  ["seat", steeper, laptop, "light"],
  ["seat-at-end-phone", flatter, { width: 340, height: 320, unit: "in" }, "dark"],
] as const)("%s", async (name, data, frame, theme) => {
  const file = standaloneSvg(seatDrawing(data, frame).svg, theme);
  expect(file).not.toMatch(/var\(|NaN|undefined/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/drawings/${name}.svg`);
});

test("says gap, insertion, depth, contact and clearance, and what is exaggerated", () => {
  const said = text(seatDrawing(steeper, laptop).svg);
  for (const words of [
    "gap 3.97 mm · 0.156 in",
    "insertion 21.13 mm",
    "receiver depth 25.10 mm",
    "contact 3.3 mm",
    "clearance 0.063 mm, open to the gap",
    "times as large as lengths",
  ])
    expect(said).toContain(words);
  expect(description(seatDrawing(steeper, laptop).svg)).toBe(steeper.words);
  expect(text(seatDrawing(flatter, laptop).svg)).toContain("open to the room");
});

/** x of the contact's two ends. */
const contactOf = (data: SeatData) => {
  const { svg, x } = seatDrawing(data, laptop);
  const [from, to] = [
    ...svg
      .querySelector("[data-part=contact]")!
      .getAttribute("d")!
      .matchAll(/[ML]([\d.]+),/g),
  ];
  return [x.invert(Number(from[1])), x.invert(Number(to[1]))];
};

test("the contact is drawn at the end that touches, as long as it is", () => {
  const [mouthFrom, mouthTo] = contactOf(steeper);
  expect(mouthFrom).toBeCloseTo(0, 1);
  expect(mouthTo).toBeCloseTo(3.33, 1);
  const [endFrom, endTo] = contactOf(flatter);
  expect(endFrom).toBeCloseTo(22.4 - 3.33, 1);
  expect(endTo).toBeCloseTo(22.4, 1);
});

test("a shank that does not enter stands before the receiver and has no gap", () => {
  const { insertionMm: _, contact: __, ...rest } = steeper;
  const { svg } = seatDrawing({ ...rest, shankEndDiameterMm: 12, insertionMm: undefined }, laptop);
  expect(svg.querySelector("[data-part=gap]")).toBeNull();
  expect(svg.querySelector("[data-part=contact]")).toBeNull();
  expect(text(svg)).not.toContain("insertion");
});

test("any seat is drawn whole, and its table has its numbers", () => {
  fc.assert(
    fc.property(
      fc.record({
        shankEndDiameterMm: fc.double({ min: 0.1, max: 30, noNaN: true }),
        shankTaper: fc.double({ min: 0, max: 1, noNaN: true }),
        mouthDiameterMm: fc.double({ min: 0.1, max: 30, noNaN: true }),
        receiverTaper: fc.double({ min: 0, max: 0.1, noNaN: true }),
        depthMm: fc.double({ min: 0.1, max: 1000, noNaN: true }),
        share: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
      fc.integer({ min: 240, max: 1600 }),
      ({ share, ...dimensions }, width) => {
        const data = { ...dimensions, insertionMm: share * dimensions.depthMm, words: "" };
        const { svg } = seatDrawing(data, { width, height: 340, unit: "mm" });
        expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
      },
    ),
  );
  expect(seatTable(steeper, "mm").rows).toContainEqual(["contact length", 3.33, "mm"]);
});
