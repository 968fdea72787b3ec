/** The section in words and in numbers. */
import { cavityDiameterMm, exitBoreMm } from "../../setup/geometry.ts";
import { isSameGap, type Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits } from "../../words/numbers.ts";
import type { Table } from "../kit/drawing.ts";
import { lengthsTable } from "../kit/table.ts";

export interface CutawayData {
  readonly setup: Setup;
  readonly chosenGapMm: number;
  readonly referenceGapMm: number;
}

export function cutawayTable({ setup, chosenGapMm, referenceGapMm }: CutawayData, unit: LengthUnit): Table {
  const { receiver, mouthpiece, leadpipe } = setup;
  const insertionMm = receiver.depthMm - chosenGapMm;
  const lengths: [string, number | undefined][] = [
    ["gap", chosenGapMm],
    ["compared with", referenceGapMm],
    ["receiver depth", receiver.depthMm],
    ["insertion", insertionMm],
    ["receiver diameter at its face", receiver.mouthDiameterMm],
    [
      "receiver diameter at the shank's end",
      cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, insertionMm),
    ],
    ["shank's end, outside diameter", mouthpiece.shankEndDiameterMm],
    ["shank's end, bore", exitBoreMm(mouthpiece.profileMm)],
    ["leadpipe's start, bore", leadpipe.profileMm[0][1]],
  ];
  return lengthsTable(["dimension", "length"], lengths, unit);
}

export function describe({ setup, chosenGapMm, referenceGapMm }: CutawayData, unit: LengthUnit): string {
  const { depthMm } = setup.receiver;
  const change = chosenGapMm - referenceGapMm;
  const against = isSameGap(chosenGapMm, referenceGapMm)
    ? "the gap it is compared with"
    : `${formatLength(Math.abs(change), unit)} ${change > 0 ? "wider" : "narrower"} than the one compared with, ${bothUnits(referenceGapMm, unit)}`;
  return (
    `Section true to scale. The shank goes ${formatLength(depthMm - chosenGapMm, unit)} into a receiver ` +
    `${formatLength(depthMm, unit)} deep and leaves a gap of ${bothUnits(chosenGapMm, unit)} before the leadpipe, ${against}. ` +
    "The shoulder gap seen from outside is another length and is not the gap."
  );
}
