/** Where each resonance lies against the reference gap, and how far it lies from its upper neighbour. */
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../../units/length.ts";
import type { Frame, Table } from "../../kit/drawing.ts";
import { type GapChartData, type GapDrawing, gapChart, gapTable } from "./gapChart.ts";
import type { Quantity } from "./gapSeries.ts";

const shift: Quantity = {
  name: "shift-chart",
  title: "Pitch of each resonance",
  axis: "shift, cents",
  unit: "cents",
  digits: 1,
  of: ({ shiftCents }) => shiftCents,
  feltFrom: ({ cents }) => cents,
  inWords: "the resonances shift",
};

const spacing: Quantity = {
  name: "spacing-chart",
  title: "Spacing to the upper neighbour",
  axis: "change of spacing, cents",
  unit: "cents",
  digits: 1,
  of: ({ spacingChangeCents }) => spacingChangeCents,
  feltFrom: ({ cents }) => cents,
  rule: "wider → further apart",
  inWords: "the resonances' spacings to their upper neighbours change",
};

export const shiftChart = (data: GapChartData, frame: Frame): GapDrawing => gapChart(shift, data, frame);

export const shiftTable = (
  data: Pick<GapChartData, "sweep">,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table => gapTable(shift, data, unit, instrument);

export const spacingChart = (data: GapChartData, frame: Frame): GapDrawing => gapChart(spacing, data, frame);

export const spacingTable = (
  data: Pick<GapChartData, "sweep">,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table => gapTable(spacing, data, unit, instrument);
