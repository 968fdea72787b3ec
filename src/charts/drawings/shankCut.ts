/** A shank before and after work on it: what its drawing and its table show, and how that is put in words. */
import { cavityDiameterMm, exitBoreMm } from "../../setup/geometry.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { Table } from "../kit/drawing.ts";
import { lengthColumn, tableOf } from "../kit/table.ts";

export interface ShankState {
  /** From rim to shank end, inside. */
  readonly boreMm: ProfileMm;
  readonly endDiameterMm: number;
  readonly insertionMm: number;
}

export interface ShankCut {
  readonly before: ShankState;
  readonly after: ShankState;
  readonly taper: number;
  /** Otherwise nobody has measured the end's diameter: it is drawn as the receiver would have it, and no wall is given. */
  readonly isEndKnown: boolean;
}

/** What work on the shank makes of it, from the setups before and after. */
export const cutBetween = (before: Setup, after: Setup): ShankCut => ({
  before: shankState(before),
  after: shankState(after),
  taper: before.mouthpiece.shankTaper ?? before.receiver.taper,
  isEndKnown: before.mouthpiece.shankEndDiameterMm !== undefined,
});

const shankState = ({ mouthpiece, receiver }: Setup): ShankState => ({
  boreMm: mouthpiece.profileMm,
  insertionMm: mouthpiece.insertionMm,
  endDiameterMm:
    mouthpiece.shankEndDiameterMm ??
    cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, mouthpiece.insertionMm),
});

/** Where the shank ends, as its bore counts positions, mm. */
export const shankEndMm = ({ boreMm }: ShankState): number => boreMm[boreMm.length - 1][0];

/** Thickness of the wall at the shank's end. */
export const endWallMm = ({ boreMm, endDiameterMm }: ShankState): number =>
  (endDiameterMm - exitBoreMm(boreMm)) / 2;

/** A length that a lathe makes: to a micrometre, or a ten-thousandth of an inch. */
export const fineLength = (lengthMm: number, unit: LengthUnit): string =>
  formatLength(lengthMm, unit, unit === "mm" ? 3 : 4);

/** Lengths before and after. */
export function cutTable({ before, after, isEndKnown }: ShankCut, unit: LengthUnit): Table {
  type Dimension = readonly [name: string, of: (state: ShankState) => number];
  const ends: Dimension[] = [
    ["shank end diameter", ({ endDiameterMm }) => endDiameterMm],
    ["wall at the shank's end", endWallMm],
  ];
  const dimensions: Dimension[] = [
    ["insertion", ({ insertionMm }) => insertionMm],
    ["mouthpiece length", (state) => shankEndMm(state) - state.boreMm[0][0]],
    ["exit bore", ({ boreMm }) => exitBoreMm(boreMm)],
    ...(isEndKnown ? ends : []),
  ];
  return tableOf(dimensions, [
    ["dimension", ([name]) => name],
    lengthColumn("before", unit, ([, of]) => of(before)),
    lengthColumn("after", unit, ([, of]) => of(after)),
  ]);
}

/** What changes, for who cannot see the drawing. */
export function cutInWords(cut: ShankCut, unit: LengthUnit): string {
  const changes = cutTable(cut, "mm").rows.flatMap(([name, before, after]) => {
    const [from, to] = [fineLength(Number(before), unit), fineLength(Number(after), unit)];
    return from === to ? [] : [`${name} ${from} to ${to}`];
  });
  const unknown = cut.isEndKnown
    ? ""
    : " The end's outside diameter has not been measured and is drawn as the receiver would have it.";
  return `Section through one wall of the shank: ${changes.join("; ")}.${unknown} Diameters are drawn larger than lengths.`;
}
