/** The figures of this task for a projector, in the order they are shown to a class. */
import { html } from "lit";
import { flowFigure } from "../../../charts/plots/flowChart.ts";
import { slotFigure } from "../../../charts/plots/slotChart.ts";
import type { ProjectedFigure } from "../../chart/projector.ts";
import type { Page } from "../../state/page.ts";
import { holdFigure } from "./holdFigure.ts";

export function projected({ feel }: Page): ProjectedFigure[] {
  const { slots, stream } = feel.parts;
  const atBoth = slots.value && { reference: slots.value[0], chosen: slots.value[1] };
  return [
    {
      name: "pad",
      title: "Play it",
      chart: (enlarged) => html`<annulus-play-pad .enlarged=${enlarged}></annulus-play-pad>`,
    },
    {
      name: "slots",
      title: "How far the lips may drift",
      chart: (enlarged) =>
        html`<annulus-chart .figure=${slotFigure} .data=${atBoth} .answer=${slots} .enlarged=${enlarged}></annulus-chart>`,
    },
    {
      name: "hold",
      title: "Slot width against gap",
      chart: (enlarged) => html`<annulus-chart .figure=${holdFigure} .enlarged=${enlarged}></annulus-chart>`,
    },
    {
      name: "flow",
      title: "Where the breath's pressure goes",
      chart: (enlarged) =>
        html`<annulus-chart .figure=${flowFigure} .data=${stream.value} .answer=${stream} .enlarged=${enlarged}></annulus-chart>`,
    },
  ];
}
