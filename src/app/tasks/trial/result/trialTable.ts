/** Every turn of an opened trial as numbers, for a spreadsheet. */
import type { Table } from "../../../../charts/kit/drawing.ts";
import { SCALES, type Trial } from "../../../../trial/trial.ts";
import { SCALE_WORDS } from "../scaleWords.ts";

export const trialTable = ({ items, turns }: Trial): Table => ({
  columns: [
    "turn",
    "repeat",
    "code",
    "item",
    "gap_mm",
    ...SCALES.map((scale) => SCALE_WORDS[scale].name.toLowerCase()),
    "remark",
  ],
  rows: turns.map(({ code, item, ratings, remark }, i) => [
    i + 1,
    1 + Math.floor(i / items.length),
    code,
    items[item].name || `gap ${item + 1}`,
    items[item].gapMm ?? "",
    ...SCALES.map((scale) => ratings[scale] ?? ""),
    remark,
  ]),
});
