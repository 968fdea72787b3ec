import { expect, test } from "vitest";
import { otherUnits } from "../../../../src/app/tasks/fit/otherUnits.ts";
import { partTables } from "../../../../src/app/tasks/fit/partTables.ts";
import { cellsOf, typedPart } from "../../../../src/app/tasks/fit/typedPart.ts";

const { dimensions, read, demoCsv } = partTables.instruments;
const cells = cellsOf(dimensions);
const demo = read(demoCsv, "demo");

test("a table's lengths are asked about where they fit the other unit better, and nowhere else", () => {
  for (const unit of ["mm", "in"] as const)
    expect(
      otherUnits(
        demo.map((part) => typedPart(part, unit)),
        cells,
        unit,
      ),
    ).toEqual([]);
  const typed = {
    name: "Kettle",
    dimensions: { mouthDiameterMm: "10.8", receiverTaper: "0.05", depthMm: "24.5 mm" },
    uncertainties: { mouthDiameterMm: "0.02" },
  };
  expect(otherUnits([typed], cells, "mm")).toEqual([]);
  expect(otherUnits([typed], cells, "in")).toMatchObject([
    { row: 0, cell: { key: "mouthDiameterMm" }, typed: "10.8", found: { text: "10.8 mm" } },
  ]);
  // a whole column in the other unit is not asked about row by row
  expect(otherUnits(Array(40).fill(typed), cells, "in")).toHaveLength(3);
});
