/** |Z| at the rim against frequency, chosen gap over reference. */
import { html, type TemplateResult } from "lit";
import type { Table } from "../../../charts/kit/drawing.ts";
import { proportional } from "../../../charts/kit/figure.ts";
import { impedanceChart, impedanceTable } from "../../../charts/plots/impedanceChart.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { PicturedUnderBreath } from "../../../study/blown/underBreath.ts";
import type { ModeInContext } from "../../../study/instrument/modeTable.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { concertPitch, noteText, partialName, writtenPitch } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import type { PageFigure } from "../../chart/pageFigure.ts";
import { segments } from "../../shell/look/segments.ts";
import type { Page } from "../../state/page.ts";
import type { Magnitude } from "../../state/state.ts";
import type { Store } from "../../state/store.ts";
import { highlighted } from "./highlighted.ts";

const SCALES = [
  { value: "linear", text: "linear" },
  { value: "dB", text: "dB", label: "dB, decibels" },
] as const;
/** What an arrow key moves the read-out line: a twentieth of a semitone; with Shift a semitone. */
const KEY_OCTAVES = { fine: 1 / 240, coarse: 1 / 12 };

interface Data extends Pick<PicturedUnderBreath, "chosen" | "reference" | "stillCurve"> {
  readonly highlight: number;
  readonly cursorHz?: number;
  readonly magnitude: Magnitude;
}

export const impedanceFigure: PageFigure<Data> = {
  name: "impedance",
  label: "Input impedance at the rim against frequency",
  keysHint:
    "Left and right arrow keys move the read-out line, with Shift by a semitone; up and down choose a note.",
  about:
    "How strongly the instrument answers at the mouthpiece's rim: the ratio of sound pressure to flow, |Z|. Notes are blown " +
    "near the peaks; a taller peak helps the lips more, its place says at what pitch. Peaks are named by the notes they are played for, as written; " +
    "point at a peak or click it to see its standing wave.",
  caption: (data) =>
    data?.stillCurve
      ? "Solid: what if, blown. Thin: the same in still air. Dashed: the gap it is compared with, blown too. Where they cover each other, neither gap nor breath changes anything."
      : "Solid: what if. Dashed: the gap it is compared with. Where they cover each other, the gap changes nothing.",
  height: proportional(0.53, 280, 440),
  answer: ({ model }) => model.parts.explored,
  read(page, cursor) {
    const { step } = page.model.parts.explored;
    const { hz } = cursor.parts;
    return (
      step && {
        chosen: step.chosen,
        reference: step.reference,
        ...(step.stillCurve && { stillCurve: step.stillCurve }),
        highlight: highlighted(page, cursor),
        magnitude: page.store.parts.view.magnitude,
        ...(hz !== null && { cursorHz: hz }),
      }
    );
  },
  draw: ({ magnitude, ...data }, frame) => impedanceChart(data, { ...frame, magnitude }),
  table: impedanceTable,
  readable: peaksTable,
  point(event, chart) {
    const place = chart.placeInPlot(event);
    if (!place) {
      chart.cursor.leave();
      return;
    }
    const hz = chart.drawing!.x.invert(place[0]);
    chart.cursor.point({ hz, resonance: nearest(chart.page, hz)?.n ?? null });
  },
  press(event, chart) {
    const place = chart.placeInPlot(event);
    if (!place) return;
    const mode = nearest(chart.page, chart.drawing!.x.invert(place[0]));
    if (mode) chart.page.store.setView({ resonance: mode.n });
  },
  key(event, chart) {
    const { page, cursor, drawing } = chart;
    const modes = modesOf(page);
    if (modes.length === 0 || !drawing || event.ctrlKey || event.metaKey || event.altKey) return;
    const current = modes.find(({ n }) => n === highlighted(page, cursor)) ?? modes[0];
    const [low, high] = drawing.x.domain();
    let hz = cursor.value.hz ?? current.frequencyHz;
    const octaves = event.shiftKey ? KEY_OCTAVES.coarse : KEY_OCTAVES.fine;
    if (event.key === "ArrowRight") hz *= 2 ** octaves;
    else if (event.key === "ArrowLeft") hz /= 2 ** octaves;
    else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      const n = current.n + (event.key === "ArrowUp" ? 1 : -1);
      const next = modes.find((mode) => mode.n === n) ?? current;
      hz = next.peakHz ?? next.frequencyHz;
      page.store.setView({ resonance: next.n });
    } else {
      if (event.key === "Escape") cursor.leave();
      return;
    }
    event.preventDefault();
    hz = Math.min(high, Math.max(low, hz));
    const resonance = nearest(page, hz)?.n ?? null;
    cursor.point({ hz, resonance });
    const instrument = instrumentOf(page.store.state.document.setup);
    const { name, cents } = writtenPitch(hz, instrument);
    const nearby = resonance === null ? "" : `, nearest peak: ${noteText(resonance, instrument)}`;
    chart.say(`${hz.toFixed(1)} Hz, ${name} ${signed(cents, 0)} cents${nearby}`);
  },
};

export const magnitudeSwitch = (store: Store): TemplateResult => html`
  <div slot="switches">
    ${segments<Magnitude>("Scale of |Z|", SCALES, store.parts.view.magnitude, (magnitude) =>
      store.setView({ magnitude }),
    )}
  </div>
`;

/** The peaks: sixteen hundred points of a curve are for a program to read. */
function peaksTable({ chosen, reference }: Data, _unit: LengthUnit, instrument?: InstrumentKind): Table {
  const of = ({ frequencyHz, Q, peakImpedance }: ModeInContext) => [
    frequencyHz,
    Q,
    peakImpedance === null ? "" : peakImpedance / 1e6,
  ];
  return {
    columns: [
      "partial",
      "note",
      "pitch",
      "what if: frequency (Hz)",
      "Q",
      "peak (MPa·s/m³)",
      "compared with: frequency (Hz)",
      "Q",
      "peak (MPa·s/m³)",
    ],
    rows: chosen.modes.map((mode) => {
      const before = reference.modes.find(({ n }) => n === mode.n);
      return [
        mode.n,
        partialName(mode.n, instrument),
        concertPitch(mode.frequencyHz, mode.n, instrument),
        ...of(mode),
        ...(before ? of(before) : ["", "", ""]),
      ];
    }),
  };
}

const modesOf = ({ model }: Page): readonly ModeInContext[] => model.parts.explored.step?.chosen.modes ?? [];

function nearest(page: Page, hz: number): ModeInContext | undefined {
  const away = (mode: ModeInContext) => Math.abs(Math.log((mode.peakHz ?? mode.frequencyHz) / hz));
  return modesOf(page).reduce<ModeInContext | undefined>(
    (best, mode) => (best && away(best) <= away(mode) ? best : mode),
    undefined,
  );
}
