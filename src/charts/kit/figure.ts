/** A chart or drawing with all that is said about it: what the page needs to show it with caption, menu, files and table. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { Drawing, Frame, Table } from "./drawing.ts";

export interface Figure<Data> {
  /** For files, `name.svg`. */
  readonly name: string;
  /** What is drawn, in a few words: for who hears the page, and over the table. */
  readonly label: string;
  /** How to read it. */
  readonly about: string;
  /** Drawn anew at every step of a hand, the most of it as it was; true if absent. */
  readonly followsHand?: boolean;
  caption(data: Data | null, unit: LengthUnit, instrument?: InstrumentKind): string;
  /** Height of a drawing this wide, px; without data, the room to keep for it. */
  height(width: number, data: Data | null): number;
  draw(data: Data, frame: Frame): Drawing;
  table(data: Data, unit: LengthUnit, instrument?: InstrumentKind): Table;
  /** The table to read, where that is another than the one to compute with. */
  readable?(data: Data, unit: LengthUnit, instrument?: InstrumentKind): Table;
}

/** A height in proportion to the width, within limits, px. */
export const proportional =
  (share: number, least: number, most: number) =>
  (width: number): number =>
    Math.min(most, Math.max(least, share * width));
