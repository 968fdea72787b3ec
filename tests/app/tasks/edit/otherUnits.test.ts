import { expect, test } from "vitest";
import { lengthText } from "../../../../src/app/form/setup/edits.ts";
import { fieldAt } from "../../../../src/app/form/setup/fields.ts";
import { cellPath, PARTS } from "../../../../src/app/form/setup/paths.ts";
import { USUAL_MM } from "../../../../src/app/form/usualLengths.ts";
import type { Draft } from "../../../../src/app/tasks/edit/drafts.ts";
import { profileOtherUnits } from "../../../../src/app/tasks/edit/profileOtherUnits.ts";
import { shapeOfMouthpiece } from "../../../../src/setup/bore/mouthpieceShape.ts";
import type { ProfileMm, Setup } from "../../../../src/setup/setup.ts";
import { STAND_INS, standIn } from "../../../../src/setup/standIns.ts";
import { otherUnit } from "../../../../src/units/otherUnit.ts";
import { demo } from "../../../acoustics/setups.ts";

const UNITS = ["mm", "in"] as const;
const all = async (): Promise<Setup[]> => [demo(), ...(await Promise.all(STAND_INS.map(standIn)))];
const put = (profileMm: ProfileMm, row: number, point: readonly [number, number]): ProfileMm =>
  profileMm.with(row, point);

test("nothing of an ordinary instrument is asked about, whatever its family and the unit in use", async () => {
  for (const setup of await all())
    for (const unit of UNITS) {
      for (const part of PARTS)
        expect(profileOtherUnits(setup[part].profileMm, [], unit), `${setup.name}, ${part}`).toEqual([]);
      const shape = shapeOfMouthpiece(setup.mouthpiece);
      const lengths = [
        [shape.rimDiameterMm, USUAL_MM.rim],
        [shape.cupDepthMm, USUAL_MM.cupDepth],
        [shape.throatDiameterMm, USUAL_MM.throat],
        [shape.throatLengthMm, USUAL_MM.throatLength],
        [shape.exitDiameterMm, USUAL_MM.backboreExit],
        [shape.lengthMm, USUAL_MM.mouthpieceLength],
        [setup.receiver.depthMm, fieldAt("receiver.depth")!.usualMm!],
        [setup.receiver.mouthDiameterMm, fieldAt("receiver.mouthDiameter")!.usualMm!],
      ] as const;
      for (const [mm, usualMm] of lengths)
        expect(otherUnit(lengthText(mm, unit), unit, usualMm), `${setup.name}, ${mm} mm`).toBeUndefined();
    }
});

test("any one diameter typed in the other unit is asked about, where its table is long enough to tell", async () => {
  for (const setup of await all())
    for (const part of PARTS) {
      const { profileMm } = setup[part];
      for (const [row, [positionMm, diameterMm]] of profileMm.entries()) {
        const tooWide = put(profileMm, row, [positionMm, diameterMm * 25.4]);
        const tooNarrow = put(profileMm, row, [positionMm, diameterMm / 25.4]);
        expect(profileOtherUnits(tooWide, [], "in")).toMatchObject([{ row, column: 1 }]);
        const [asked] = profileOtherUnits(tooNarrow, [], "mm");
        expect(asked).toMatchObject({ row, column: 1 });
        expect(asked.found.otherMm).toBeCloseTo(diameterMm, 2);
      }
    }
});

test("a position is asked about where it lies between its neighbours only when read the other way", () => {
  const profileMm: ProfileMm = [
    [0, 11.7],
    [40, 11.6],
    [90, 11.9],
    [150, 12.4],
  ];
  const draft = (row: number, text: string): Draft => ({
    path: cellPath({ part: "leadpipe", row, column: 0 }),
    text,
    unit: "in",
    message: "positions must increase",
    replaces: "",
  });
  expect(profileOtherUnits(profileMm, [draft(2, "92.5")], "in")).toEqual([
    {
      row: 2,
      column: 0,
      typed: "92.5",
      found: { asReadMm: 2349.5, otherMm: 92.5, other: "mm", text: "92.5 mm" },
    },
  ]);
  // with its unit behind it, or wrong in either, there is nothing to ask
  expect(profileOtherUnits(profileMm, [draft(2, "92.5 mm"), draft(1, "700")], "in")).toEqual([]);
  // the last row was taken as it was read
  expect(profileOtherUnits(put(profileMm, 3, [3810, 12.4]), [], "in")).toMatchObject([
    { row: 3, column: 0, typed: "150", found: { text: "150 mm" } },
  ]);
  expect(profileOtherUnits(put(profileMm, 3, [170, 12.4]), [], "in")).toEqual([]);
});

test("a table that is in the other unit as a whole does not ask row by row", () => {
  const mixed: ProfileMm = Array.from({ length: 40 }, (_, i) => [i, i % 4 === 1 ? 300 : 11.8] as const);
  expect(profileOtherUnits(mixed, [], "in")).toHaveLength(3);
});
