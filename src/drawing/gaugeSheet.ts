/** From a setup to the drawing of a gauge, a leadpipe or a mandrel, and to the numbers on it; or why there is none. */
import { type PlugFlaw, type PlugGauge, plugGauge } from "../bench/gauges/plugGauge.ts";
import { type RingFlaw, type RingGauge, ringGauge } from "../bench/gauges/ringGauge.ts";
import {
  isTolerance,
  leadpipeTube,
  mandrelTube,
  type TaperedTube,
  type TubeFlaw,
  type TubeQuestion,
} from "../bench/gauges/taperedTube.ts";
import { gapMm, type Setup } from "../setup/setup.ts";
import type { LengthUnit } from "../units/length.ts";
import {
  assumedWords,
  figures,
  GAUGE_ABOUT,
  GAUGE_CAUTIONS,
  GAUGE_FILE,
  GAUGE_TITLE,
  type GaugeKind,
  gaugeFlawWords,
  MADE_BY,
  plugNotes,
  printCheckWords,
  ringNotes,
  toleranceLine,
  tubeNotes,
  unitLine,
} from "../words/bench/gauges.ts";
import { frame, sheetOf } from "./frame.ts";
import { plugDrawing } from "./plugDrawing.ts";
import { ringDrawing } from "./ringDrawing.ts";
import type { Mark, Point, Sheet } from "./sheet.ts";
import { tubeDrawing } from "./tubeDrawing.ts";

/** What may be asked for; what is left out is as usual. */
export interface GaugeOptions {
  readonly unit: LengthUnit;
  /** ± on every dimension without its own, mm. */
  readonly toleranceMm?: number;
  /** Of a plug: between shoulders. Of a ring: between gap marks. */
  readonly stepMm?: number;
  /** Of a ring: gaps between which a shank is right. */
  readonly limitsMm?: readonly [lowMm: number, highMm: number];
  /** Of a leadpipe. */
  readonly wallMm?: number;
  /** Of a mandrel: how much wider than it a tube comes off, on the diameter. */
  readonly springBackMm?: number;
  /** Of a mandrel: beyond each end of the tube. */
  readonly overrunMm?: number;
}

export interface DrawnGauge {
  readonly kind: GaugeKind;
  readonly sheet: Sheet;
  readonly gauge: PlugGauge | RingGauge | TaperedTube;
  /** On the sheet as well. */
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

/** Round in the shop's unit. Common practice, no source. */
export const usualGauge = (unit: LengthUnit) =>
  unit === "mm"
    ? { toleranceMm: 0.02, stepMm: 0.5, wallMm: 0.5, overrunMm: 10, limitMm: 0.25 }
    : { toleranceMm: 0.0254, stepMm: 0.508, wallMm: 0.508, overrunMm: 10.16, limitMm: 0.254 };

/** Limits of a ring where none are asked for: the setup's own gap, a little either way. */
export const usualLimits = (setup: Setup, unit: LengthUnit): readonly [number, number] => {
  const { limitMm } = usualGauge(unit);
  return [Math.max(0, gapMm(setup) - limitMm), gapMm(setup) + limitMm];
};

/** The drawing, or what stands in its way in words that follow a colon. */
export function drawnGauge(
  setup: Setup,
  kind: GaugeKind,
  options: GaugeOptions,
): DrawnGauge | { readonly refused: string } {
  const { unit } = options;
  const usual = usualGauge(unit);
  const asked = { ...usual, limitsMm: usualLimits(setup, unit), springBackMm: 0, ...known(options) };
  const toleranceMm = asked.toleranceMm;
  const made = isTolerance(toleranceMm)
    ? makeOne(setup, kind, asked)
    : ({ kind: "out-of-range", what: "tolerance" } as const);
  if ("kind" in made) return { refused: gaugeFlawWords(made, unit) };
  const { gauge, drawing, notes: own } = made;
  const cautions = GAUGE_CAUTIONS;
  const notes = [...assumedWords(setup, kind), ...own];
  const title = GAUGE_TITLE[kind];
  const framed = frame(
    drawing.sizeMm,
    {
      title,
      of: setup.name,
      unitLine: unitLine(unit),
      toleranceLine: toleranceLine(toleranceMm, unit),
      madeBy: MADE_BY,
      printCheck: printCheckWords(unit),
      notes: [...notes, ...cautions],
    },
    unit,
  );
  return {
    kind,
    gauge,
    notes,
    cautions,
    sheet: sheetOf(
      {
        name: GAUGE_FILE[kind],
        title: setup.name === "" ? title : `${title}: ${setup.name}`,
        description: [GAUGE_ABOUT[kind], described(gauge, unit)].join(" "),
        marks: [...framed, ...drawing.marks],
      },
      drawing.sizeMm,
    ),
  };
}

type Asked = Required<GaugeOptions>;

/** Options that were given at all. */
const known = (options: GaugeOptions): GaugeOptions =>
  Object.fromEntries(
    Object.entries(options).filter(([, value]) => value !== undefined),
  ) as unknown as GaugeOptions;

interface Made {
  readonly gauge: PlugGauge | RingGauge | TaperedTube;
  readonly drawing: { readonly marks: readonly Mark[]; readonly sizeMm: Point };
  readonly notes: readonly string[];
}

function makeOne(
  { receiver, leadpipe, mouthpiece }: Setup,
  kind: GaugeKind,
  asked: Asked,
): Made | PlugFlaw | RingFlaw | TubeFlaw {
  const { unit, stepMm, limitsMm } = asked;
  switch (kind) {
    case "plug": {
      const gauge = plugGauge({ receiver, leadpipeBoreMm: leadpipe.profileMm[0][1], stepMm });
      if ("kind" in gauge) return gauge;
      return { gauge, drawing: plugDrawing(gauge, unit), notes: plugNotes(gauge, unit) };
    }
    case "ring": {
      const { insertionMm } = mouthpiece;
      const gauge = ringGauge({ receiver, limitsMm, everyMm: stepMm, insertionMm });
      if ("kind" in gauge) return gauge;
      return { gauge, drawing: ringDrawing(gauge, unit), notes: ringNotes(gauge, unit) };
    }
    case "leadpipe":
    case "mandrel": {
      const question: TubeQuestion = { ...asked, profileMm: leadpipe.profileMm };
      const gauge = kind === "leadpipe" ? leadpipeTube(question) : mandrelTube(question);
      if ("kind" in gauge) return gauge;
      return {
        gauge,
        drawing: tubeDrawing(gauge, kind === "leadpipe", unit),
        notes: tubeNotes(kind, gauge, question, unit),
      };
    }
  }
}

/** The main numbers, for who cannot see the drawing. */
function described(gauge: Made["gauge"], unit: LengthUnit): string {
  if ("shoulders" in gauge)
    return `Nose ${figures(gauge.noseDiameterMm, unit)} in diameter; shoulders at ${gauge.shoulders.map(({ lengthMm }) => figures(lengthMm, unit)).join(", ")} from it.`;
  if ("marksMm" in gauge)
    return `${figures(gauge.lengthMm, unit)} long, bore ${figures(gauge.faceBoreMm, unit, 3)} to ${figures(gauge.farBoreMm, unit, 3)}; right between gaps of ${gauge.limitsMm.map((gap) => figures(gap, unit)).join(" and ")}.`;
  return `${gauge.segments.length} segments: ${gauge.segments
    .map(
      ({ toMm, toDiameterMm }, i) =>
        `${i === 0 ? `${figures(gauge.segments[0].fromDiameterMm, unit, 3)} at the start, ` : ""}${figures(toDiameterMm, unit, 3)} at ${figures(toMm, unit)}`,
    )
    .join("; ")}.`;
}
