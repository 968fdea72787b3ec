/** One quantity of every resonance against gap: height, shift or spacing, as it is or retuned. */
import type { Frame, Point } from "../../../charts/kit/drawing.ts";
import { type Figure, proportional } from "../../../charts/kit/figure.ts";
import type { GapChartData, GapDrawing } from "../../../charts/plots/gap/gapChart.ts";
import { heightChart, heightTable } from "../../../charts/plots/gap/heightChart.ts";
import {
  shiftChart,
  shiftTable,
  spacingChart,
  spacingTable,
} from "../../../charts/plots/gap/spacingChart.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import { PLAYED } from "../../../study/change/verdicts.ts";
import type { GapRow, GapSweep } from "../../../study/instrument/gapSweep.ts";
import { noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { gapLines, gapsShown, moveGapLine, readGapMm } from "../../chart/gapLine.ts";
import type { PageFigure, ShownChart } from "../../chart/pageFigure.ts";
import { holdGap } from "../../form/gap/holdGap.ts";
import type { Page } from "../../state/page.ts";
import type { Answer } from "../../work/work.ts";
import { highlighted } from "./highlighted.ts";

interface Kind {
  readonly name: string;
  readonly label: string;
  readonly caption: () => string;
  readonly about: string;
  readonly unit: "dB" | "cents";
  readonly digits: number;
  readonly draw: (data: GapChartData, frame: Frame) => GapDrawing;
  readonly table: Figure<Pick<GapChartData, "sweep">>["table"];
  readonly of: (mode: ChangedMode) => number | null;
}

/** The gap that is looked at follows the hand on the drawing that is there. */
type Data = Omit<GapChartData, "chosenGapMm">;

/** A pointer this near to a line means it, px. */
const NEAR_PX = 14;

const shownAnswer = ({ model, store }: Page): Answer<GapSweep> => {
  const { sweep, retuned } = model.parts;
  return store.parts.view.showRetuned && retuned.value ? retuned : sweep;
};

function gapFigure({
  unit,
  digits,
  draw,
  of,
  ...said
}: Kind): PageFigure<Data, Parameters<typeof gapLines.follow>[1]> {
  const valueIn = ({ modes }: GapRow, n: number): number | null => {
    const mode = modes.find((one) => one.n === n);
    return mode ? of(mode) : null;
  };
  const found = (page: Page, sweep: GapSweep, gapMm: number, n: number): string => {
    const value = valueIn(nearestRow(sweep, gapMm), n);
    const note = noteText(n, instrumentOf(page.store.state.document.setup));
    return `${note}: ${value === null ? "no peak" : `${signed(value, digits)} ${unit}`}`;
  };
  /** The resonance whose line passes near a place in the drawing. */
  const lineAt = ({ page, drawing }: ShownChart, [x, y]: Point): number | null => {
    const sweep = shownAnswer(page).value;
    if (!sweep || !drawing || sweep.rows.length === 0) return null;
    const row = nearestRow(sweep, drawing.x.invert(x));
    let [best, away]: [number | null, number] = [null, NEAR_PX];
    for (const { n } of row.modes) {
      const value = valueIn(row, n);
      if (n < PLAYED[0] || n > PLAYED[1] || value === null) continue;
      const distance = Math.abs(drawing.y(value) - y);
      if (distance < away) [best, away] = [n, distance];
    }
    return best;
  };
  return {
    ...gapLines,
    ...said,
    keysHint:
      "Left and right arrow keys move the read-out line, with Shift in large steps; up and down choose a note; Enter takes the gap.",
    height: proportional(0.62, 290, 380),
    answer: shownAnswer,
    read(page, cursor) {
      const sweep = shownAnswer(page).value;
      return (
        sweep && {
          sweep,
          thresholds: page.store.parts.document.setup.thresholds,
          domainMm: gapsShown(page),
          highlight: highlighted(page, cursor),
        }
      );
    },
    draw: (data, frame) => draw({ ...data, chosenGapMm: data.sweep.referenceGapMm }, frame),
    point(event, chart) {
      if (!chart.drawing || chart.sheet.classList.contains("held")) return;
      const place = chart.placeInPlot(event);
      if (place)
        chart.cursor.point({ gapMm: chart.drawing.x.invert(place[0]), resonance: lineAt(chart, place) });
      else chart.cursor.leave();
    },
    press(event, chart) {
      const { page, drawing } = chart;
      if (!drawing) return;
      if ((event.target as Element).closest("[data-part='gap-line']")) {
        const [grabbed] = chart.placeOf(event);
        const off = drawing.x(page.store.state.document.gapMm) - grabbed;
        chart.cursor.leave();
        holdGap(chart.sheet, event, page.store, (moved) =>
          chart.drawing!.x.invert(chart.placeOf(moved)[0] + off),
        );
        return;
      }
      const resonance = lineAt(chart, chart.placeOf(event));
      if (resonance !== null) page.store.setView({ resonance });
    },
    key(event, chart) {
      const { page, cursor } = chart;
      const sweep = shownAnswer(page).value;
      if (!sweep) return;
      if (event.key !== "ArrowUp" && event.key !== "ArrowDown") {
        moveGapLine(event, chart, (gapMm) => found(page, sweep, gapMm, highlighted(page, cursor)));
        return;
      }
      event.preventDefault();
      const { resonance, unit: lengthUnit } = page.store.state.view;
      const n = resonance + (event.key === "ArrowUp" ? 1 : -1);
      if (n < PLAYED[0] || n > PLAYED[1]) return;
      page.store.setView({ resonance: n });
      const gapMm = readGapMm(chart);
      chart.say(`gap ${bothUnits(gapMm, lengthUnit)}, ${found(page, sweep, gapMm, n)}`);
    },
  };
}

const nearestRow = ({ rows }: GapSweep, gapMm: number): GapRow =>
  rows.reduce((best, row) => (Math.abs(row.gapMm - gapMm) < Math.abs(best.gapMm - gapMm) ? row : best));

export const heightAgainstGap = gapFigure({
  name: "height-against-gap",
  label: "Height of each peak against gap",
  caption: () =>
    "How much taller or lower each peak gets: three notes named, all of them shaded. What is inside the hatched band is too small to notice.",
  about:
    "How many decibels a note's peak is taller or lower than at the gap compared with. The heavy line is the highlighted note; the " +
    "dashed and the dotted one go furthest up and down; all notes lie in the shaded range, and pointing there picks one out. A taller peak helps the lips more. Inside the hatched band a change is too small to notice.",
  unit: "dB",
  digits: 2,
  draw: heightChart,
  table: heightTable,
  of: ({ heightDb }) => heightDb,
});

export const shiftAgainstGap = gapFigure({
  name: "shift-against-gap",
  label: "Pitch of each note against gap",
  caption: () =>
    "How far each note moves in pitch: three named, all of them shaded. The tuning slide takes back what all have in common.",
  about:
    "How many cents a note's resonance lies above or below where it is at the gap compared with. The heavy line is the highlighted note; " +
    "the others that have a name go furthest up and down; all notes lie in the shaded range. What they have in common the player takes back with the tuning slide; switch to “slide retuned” to see what remains.",
  unit: "cents",
  digits: 1,
  draw: shiftChart,
  table: shiftTable,
  of: ({ shiftCents }) => shiftCents,
});

export const spacingAgainstGap = gapFigure({
  name: "spacing-against-gap",
  label: "Spacing to the upper neighbour against gap",
  caption: () => "How much further apart neighbours move. The trade's rule asks for more with a wider gap.",
  about:
    "How many cents further from (or nearer to) the next one up a note lies than at the gap compared with. The heavy line is the " +
    "highlighted note; the others that have a name go furthest up and down; all notes lie in the shaded range. Retuning hardly changes it.",
  unit: "cents",
  digits: 1,
  draw: spacingChart,
  table: spacingTable,
  of: ({ spacingChangeCents }) => spacingChangeCents,
});
