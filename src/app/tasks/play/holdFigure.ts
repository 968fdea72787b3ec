/** The hold of every note against gap. */
import { proportional } from "../../../charts/kit/figure.ts";
import { type HoldData, holdChart, holdTable } from "../../../charts/plots/gap/holdChart.ts";
import { gapLines, gapsShown, moveGapLine } from "../../chart/gapLine.ts";
import type { PageFigure } from "../../chart/pageFigure.ts";

export const holdFigure: PageFigure<Omit<HoldData, "chosenGapMm">, Parameters<typeof gapLines.follow>[1]> = {
  ...gapLines,
  name: "hold-against-gap",
  label: "Slot width of each note against gap",
  about:
    "How many cents wider or narrower the lip frequencies are that start a note than at the gap compared with. The heavy line is " +
    "the highlighted note; the others that have a name go furthest up and down; all notes lie in the shaded range. All gaps are blown alike. Inside the hatched band a change is too small to notice; that band is assumed, for want of " +
    "a published figure.",
  caption: () => "How much wider each slot gets. The trade's rule asks for more with a wider gap.",
  keysHint:
    "Left and right arrow keys move the read-out line, with Shift in large steps; Enter takes the gap.",
  height: proportional(0.62, 300, 420),
  answer: ({ feel }) => feel.parts.holds,
  read(page) {
    const { value } = page.feel.parts.holds;
    const { document, view } = page.store.parts;
    return (
      value && {
        slots: value,
        // the gaps that were asked about begin with it
        referenceGapMm: value[0].gapMm,
        thresholds: document.setup.thresholds,
        domainMm: gapsShown(page),
        highlight: view.resonance,
      }
    );
  },
  draw: (data, frame) => holdChart({ ...data, chosenGapMm: data.referenceGapMm }, frame),
  table: holdTable,
  point(event, chart) {
    const place = chart.placeInPlot(event);
    if (place) chart.cursor.point({ gapMm: chart.drawing!.x.invert(place[0]) });
    else chart.cursor.leave();
  },
  key: (event, chart) => moveGapLine(event, chart),
};
