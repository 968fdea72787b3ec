/** How tall each resonance's peak is against the same peak at the reference gap. */
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../../units/length.ts";
import type { Frame, Table } from "../../kit/drawing.ts";
import { type GapChartData, type GapDrawing, gapChart, gapTable } from "./gapChart.ts";
import type { Quantity } from "./gapSeries.ts";

const height: Quantity = {
  name: "height-chart",
  title: "Height of each peak",
  axis: "change of peak height, dB",
  unit: "dB",
  digits: 2,
  of: ({ heightDb }) => heightDb,
  feltFrom: ({ decibels }) => decibels,
  rule: "wider → taller",
  inWords: "the peaks change in height",
};

export const heightChart = (data: GapChartData, frame: Frame): GapDrawing => gapChart(height, data, frame);

export const heightTable = (
  data: Pick<GapChartData, "sweep">,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table => gapTable(height, data, unit, instrument);
