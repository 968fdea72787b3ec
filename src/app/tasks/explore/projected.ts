/** The figures of this task for a projector, in the order they are shown to a class. */
import { html } from "lit";
import type { PageFigure } from "../../chart/pageFigure.ts";
import type { ProjectedFigure } from "../../chart/projector.ts";
import type { Store } from "../../state/store.ts";
import { heightAgainstGap, shiftAgainstGap, spacingAgainstGap } from "./gapFigures.ts";
import { impedanceFigure } from "./impedanceFigure.ts";
import { standingWaveFigure } from "./standingWaveFigure.ts";

const chart =
  // biome-ignore lint/suspicious/noExplicitAny: a figure of whatever data
    (figure: PageFigure<any, any>): ProjectedFigure["chart"] =>
    (enlarged) =>
      html`<annulus-chart .figure=${figure} .enlarged=${enlarged}></annulus-chart>`;

export function projected(store: Store): ProjectedFigure[] {
  const switches = html`<annulus-retune></annulus-retune>`;
  return [
    {
      name: "cutaway",
      title: "The gap, cut open",
      chart: (enlarged) => html`<annulus-cutaway .enlarged=${enlarged}></annulus-cutaway>`,
    },
    { name: "impedance", title: "What the lips feel of the air", chart: chart(impedanceFigure) },
    { name: "standing-wave", title: "One note along the tube", chart: chart(standingWaveFigure(store)) },
    { name: "height", title: "Peak height against gap", chart: chart(heightAgainstGap), switches },
    { name: "shift", title: "Pitch against gap", chart: chart(shiftAgainstGap), switches },
    { name: "spacing", title: "Spacing of the notes against gap", chart: chart(spacingAgainstGap), switches },
  ];
}
