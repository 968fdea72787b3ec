/**
 * By how much each resonance moved, from sweeps: an open diamond with its interval, and beside it the model's shift for the same change
 * of gap with its own, never fitted to it.
 */
import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { BesideModel, ComparedResonance } from "../../../study/swept/besideModel.ts";
import type { SweptChange } from "../../../study/swept/sweptChange.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteLabel } from "../../../words/instruments.ts";
import { SWEPT_FINDING, sweptHeadline } from "../../../words/swept/sweptWords.ts";
import { leftAxis } from "../../kit/axes.ts";
import { type Drawing, type Frame, rule, sheet, type Table, typeSizes } from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { drawKey, type KeyItem } from "../../kit/labels/key.ts";
import { diamond } from "../../kit/marks/diamond.ts";
import { dot } from "../../kit/marks/dot.ts";
import { intervalBar } from "../../kit/marks/intervalBar.ts";
import { levelLine } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox, silent, widthOf } from "../../kit/panel.ts";
import { noteColumns, tableOf } from "../../kit/table.ts";
import { roundTicks, signedText } from "../../kit/ticks.ts";

export interface SweptChart {
  readonly swept: SweptChange;
  readonly beside: BesideModel;
}

/** Measured and model stand this far to either side of their place, px at most. */
const ASIDE = 7;
const MODEL = { stroke: "ink", "stroke-width": 2 } as const;

export function sweptChart({ swept, beside }: SweptChart, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const { resonances } = beside;
  const svg = sheet(frame, {
    name: "swept",
    title: "Shift of each resonance, measured",
    description: sweptHeadline(swept, beside, frame.unit),
  });
  const plot = plotBox(frame, { left: 3.6 * small, right: small, top: 3.4 * small });
  const x = scaleLinear([-0.5, Math.max(0.5, resonances.length - 0.5)], [plot.left, plot.right]);
  const y = scaleLinear(rangeOf(resonances), [plot.bottom, plot.top]).nice(5);
  const on: Panel = { parent: silent(svg), x, y, plot, size: small };
  leftAxis(on, roundTicks(y, 5, signedText), true);
  levelLine(on, 0, "ink");
  label(on, "shift, cents", 0, plot.top - 8, { fill: "muted" });
  const hasModel = resonances.some(({ model }) => model !== null);
  drawKey(on, keyOf(hasModel, frame), 0, small, { sample: 22, apart: 16 });
  rule(on.parent, [plot.left, plot.bottom], [plot.right, plot.bottom], "ink");
  const room = widthOf(plot) / Math.max(1, resonances.length);
  const every = Math.max(1, Math.ceil((3.6 * small) / room));
  const aside = Math.min(ASIDE, room / 5);
  resonances.forEach(({ n, hz, shift, model }, i) => {
    if (i % every === 0) {
      const name = n === null ? hz.toFixed(0) : noteLabel(n, frame.instrument);
      label(on, name, x(i), plot.bottom + small + 6, { anchor: "middle", fill: "muted" });
    }
    if (model) {
      const at = x(i) + aside;
      if (model.expanded)
        intervalBar(
          on.parent,
          {
            ends: [y(model.value - model.expanded), y(model.value + model.expanded)],
            at,
            cap: 3,
            isUpright: true,
          },
          "ink",
        );
      dot(on.parent, [at, y(model.value)], 3.5, "ink", { "data-part": "model" });
    }
    const at = model ? x(i) - aside : x(i);
    intervalBar(
      on.parent,
      {
        ends: [y(shift.value - shift.expanded), y(shift.value + shift.expanded)],
        at,
        cap: 5,
        isUpright: true,
      },
      "measured",
    );
    diamond(on.parent, [at, y(shift.value)], 6, "measured", { "data-part": "measured" });
  });
  const unnamed = resonances.filter(({ n }) => n === null).length;
  const title =
    unnamed === 0
      ? "note"
      : unnamed === resonances.length
        ? "resonance, Hz"
        : "note, or Hz where the model has none";
  label(on, title, plot.right, plot.bottom + 2 * small + 9, { anchor: "end", fill: "muted" });
  return { svg, x, y, plot };
}

function rangeOf(resonances: readonly ComparedResonance[]): [number, number] {
  const ends = resonances.flatMap(({ shift, model }) => [
    shift.value - shift.expanded,
    shift.value + shift.expanded,
    ...(model ? [model.value - (model.expanded ?? 0), model.value + (model.expanded ?? 0)] : []),
  ]);
  const [low, high] = [Math.min(-0.5, ...ends), Math.max(0.5, ...ends)];
  const room = 0.06 * (high - low);
  return [low - room, high + room];
}

const keyOf = (hasModel: boolean, { width }: Frame): KeyItem[] => [
  {
    text: width < 500 ? "measured, 95 %" : "this instrument, measured (95 %)",
    line: { stroke: "measured", "stroke-width": 2 },
    fill: "measured",
  },
  ...(hasModel ? [{ text: "model", line: MODEL }] : []),
];

export function sweptTable({ beside }: SweptChart, _unit: LengthUnit, instrument?: InstrumentKind): Table {
  return tableOf<ComparedResonance>(beside.resonances, [
    ...noteColumns<ComparedResonance>(({ n }) => n, instrument),
    ["frequency before (Hz)", ({ hz }) => hz],
    ["shift (cents)", ({ shift }) => shift.value],
    ["± 95 % (cents)", ({ shift }) => shift.expanded],
    ["model’s shift (cents)", ({ model }) => model?.value],
    ["± 95 % of the model’s (cents)", ({ model }) => model?.expanded],
    ["Q before", ({ q }) => q],
    ["change of Q (%)", ({ qChange }) => qChange.value],
    ["± 95 % of it (%)", ({ qChange }) => qChange.expanded],
    ["model’s change of Q (%)", ({ model }) => model?.qPercent],
    ["model", ({ finding }) => SWEPT_FINDING[finding]],
  ]);
}

export const sweptFigure: Figure<SweptChart> = {
  name: "swept",
  label: "Shift of each resonance, measured",
  about:
    "An open diamond is by how much a resonance of this instrument moved from before to after, all takes at one temperature; its bar is how well that is " +
    "known (95 %). The dot beside it is the model’s shift for the same change of gap, with a bar where the setup says how well it is known. They agree " +
    "where the two differ by no more than both bars together. Nothing is fitted: the model only lends the notes their names.",
  caption: (data, unit) =>
    data
      ? `Measured from ${formatLength(data.swept.beforeMm, unit)} to ${formatLength(data.swept.afterMm, unit)}, beside the model where it has that note.`
      : "",
  height: proportional(0.5, 250, 360),
  draw: sweptChart,
  table: sweptTable,
};
