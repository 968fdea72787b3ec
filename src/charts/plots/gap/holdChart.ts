/** How wide each note's slot is against the same note's at the reference gap, over the gap. */
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { GapSlots } from "../../../study/feel/slots.ts";
import type { LengthUnit } from "../../../units/length.ts";
import type { Frame, Table } from "../../kit/drawing.ts";
import { type GapChartData, type GapDrawing, gapChart, gapTable } from "./gapChart.ts";
import type { Quantity, Swept } from "./gapSeries.ts";

interface HeldNote {
  readonly n: number;
  /** null where the note has no slot at this gap or at the reference. */
  readonly slotWidthChangeCents: number | null;
}

export interface HoldData extends Omit<GapChartData<HeldNote>, "sweep"> {
  /** One a gap, the reference's among them. */
  readonly slots: readonly GapSlots[];
  readonly referenceGapMm: number;
}

const hold: Quantity<HeldNote> = {
  name: "hold-chart",
  noun: "note",
  title: "Slot width of each note",
  axis: "change of slot width, cents",
  unit: "cents",
  digits: 1,
  of: ({ slotWidthChangeCents }) => slotWidthChangeCents,
  feltFrom: ({ slotCents }) => slotCents,
  rule: "wider → firmer",
  inWords: "the notes' slots change in width",
};

export const holdChart = ({ slots, referenceGapMm, ...data }: HoldData, frame: Frame): GapDrawing =>
  gapChart(hold, { ...data, sweep: holdSweep(slots, referenceGapMm) }, frame);

export const holdTable = (
  { slots, referenceGapMm }: Pick<HoldData, "slots" | "referenceGapMm">,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table => gapTable(hold, { sweep: holdSweep(slots, referenceGapMm) }, unit, instrument);

function holdSweep(slots: readonly GapSlots[], referenceGapMm: number): Swept<HeldNote> {
  const reference = slots.find(({ gapMm }) => gapMm === referenceGapMm)?.notes ?? [];
  const own = (n: number) => reference.find((note) => note.n === n)?.slot?.slotWidthCents;
  return {
    referenceGapMm,
    retune: null,
    reference,
    rows: [...slots]
      .sort((a, b) => a.gapMm - b.gapMm)
      .map(({ gapMm, notes }) => ({
        gapMm,
        slideMm: 0,
        modes: notes.map(({ n, slot }) => {
          const from = own(n);
          return { n, slotWidthChangeCents: slot && from !== undefined ? slot.slotWidthCents - from : null };
        }),
      })),
  };
}
