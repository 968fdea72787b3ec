import { type Command, Option } from "commander";
import {
  DEFAULT_LIPS,
  DEFAULT_TWO_WAY_LIPS,
  formatLength,
  type GapSlots,
  gapKindWords,
  InputError,
  Instrument,
  type InstrumentKind,
  instrumentOf,
  isTwoWay,
  LIP_BIAS,
  type Lips,
  MASS_REFERENCE_HZ,
  MODAL_COUNT,
  type NoteSlot,
  noteLabel,
  ONLY_CHANGES,
  type Pressure,
  parseLengthMm,
  parseRange,
  partialName,
  type Setup,
  slotSteps,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { numberOf } from "../terminal/numberText.ts";
import { parsePressure } from "../terminal/pressureText.ts";
import { counting } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { textTable } from "../terminal/table.ts";

interface Options {
  readonly gap?: string;
  readonly gaps?: string;
  readonly comparedWith?: string;
  readonly pressure: string;
  readonly lips: "one-mass" | "two-way";
  readonly lipMass?: string;
  readonly lipMassExponent?: string;
  readonly lipQuality?: string;
  readonly lipOpening?: string;
  readonly lipWidth?: string;
  readonly format: string;
}

interface Answer {
  readonly referenceGapMm: number;
  readonly pressure: Pressure;
  readonly lips: Lips;
  readonly gaps: readonly GapSlots[];
  readonly instrument: InstrumentKind;
}

const COMPARED_WITH = new Option(
  "--compared-with <length>",
  "gap whose starting pressures set how hard each note is blown (the setup's own)",
);

/** `annulus slots SETUP`: how firmly every note sits, at one gap or several. */
export function slotsCommand(program: Command): void {
  program
    .command("slots")
    .description("starting pressure, slot width, pull and margin of every note on modelled lips")
    .argument("<setup>", "setup file, or - for standard input")
    .option("--gap <length>", "gap instead of the setup's own, e.g. 2.54mm or 0.1in")
    .option("--gaps <range>", "several gaps, start:stop:step, e.g. 0:8:1 (mm)")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .option(
      "--pressure <pressure>",
      "of each note's own starting pressure, or one for all, e.g. 3kPa",
      "1.3x",
    )
    .addOption(
      new Option("--lips <model>", "one mass that swings out, or lips that swing out and stretch open")
        .choices(["one-mass", "two-way"])
        .default("one-mass"),
    )
    .option("--lip-mass <kg/m2>", `mass per area of the lips at ${MASS_REFERENCE_HZ} Hz`)
    .option("--lip-mass-exponent <e>", "how it falls: mass ∝ 1/f^e; 0 for one mass at all notes")
    .option("--lip-quality <Q>", "quality factor of the lips alone")
    .option("--lip-opening <length>", "between the lips without pressure, e.g. 0.5mm")
    .option("--lip-width <length>", "of the opening, e.g. 7mm")
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: Options) => {
      if (options.gap !== undefined && options.gaps !== undefined)
        throw new InputError("--gap and --gaps ask for different things; give one of them");
      return forEachSetup(path, options.format, {
        study: (setup) => study(setup, options),
        json: asJson,
        rows: (answer) => asJson(answer).rows,
        print: text,
        formerKeys: FORMER_KEYS,
      });
    });
}

function study(setup: Setup, options: Options): Answer {
  const instrument = new Instrument(setup, { modes: MODAL_COUNT });
  const length = (typed: string | undefined, otherwise: number): number =>
    typed === undefined ? otherwise : parseLengthMm(typed, setup.units);
  const referenceGapMm = length(options.comparedWith, instrument.gapMm);
  const gapsMm =
    options.gaps === undefined
      ? [length(options.gap, instrument.gapMm)]
      : parseRange(options.gaps, setup.units);
  const pressure = parsePressure(options.pressure);
  const lips = lipsAsked(options, length);
  const gaps: GapSlots[] = [];
  for (const slots of slotSteps(instrument, gapsMm, { lips, pressure, referenceGapMm })) {
    gaps.push(slots);
    counting("gap")(gaps.length, gapsMm.length);
  }
  return { referenceGapMm, pressure, lips, gaps, instrument: instrumentOf(setup) };
}

function lipsAsked(options: Options, length: (typed: string | undefined, otherwise: number) => number): Lips {
  const { lips, lipMass, lipMassExponent, lipQuality, lipOpening, lipWidth } = options;
  const usual = lips === "two-way" ? DEFAULT_TWO_WAY_LIPS : DEFAULT_LIPS;
  const alike = {
    quality: number(lipQuality, "--lip-quality", usual.quality),
    restOpening: length(lipOpening, 1000 * usual.restOpening) / 1000,
    width: length(lipWidth, 1000 * usual.width) / 1000,
  };
  if (lips === "one-mass")
    return {
      massPerArea: number(lipMass, "--lip-mass", DEFAULT_LIPS.massPerArea),
      massExponent: number(lipMassExponent, "--lip-mass-exponent", DEFAULT_LIPS.massExponent),
      ...alike,
    };
  const [other] = [lipMass && "--lip-mass", lipMassExponent && "--lip-mass-exponent"].filter(Boolean);
  if (other) throw new InputError(`${other} is of one-mass lips; leave it out, or give --lips one-mass`);
  return { ...DEFAULT_TWO_WAY_LIPS, ...alike };
}

function number(typed: string | undefined, option: string, otherwise: number): number {
  return typed === undefined ? otherwise : numberOf(option, typed, otherwise);
}

const FORMER_KEYS: FormerKeys = {
  compared_with_gap_mm: "reference_gap_mm",
  times_starting_pressure: "times_threshold",
  starting_pressure_Pa: "threshold_Pa",
  starting_lip_Hz: "threshold_lip_Hz",
  starting_playing_Hz: "threshold_playing_Hz",
  slot_width_cents: "hold_cents",
};

const asJson = ({ referenceGapMm, pressure, lips, gaps, instrument }: Answer) => ({
  instrument,
  compared_with_gap_mm: referenceGapMm,
  pressure:
    "pascals" in pressure
      ? { pressure_Pa: pressure.pascals }
      : { times_starting_pressure: pressure.timesThreshold },
  lips: {
    model: isTwoWay(lips) ? lips.model : "one-mass",
    ...(isTwoWay(lips)
      ? {
          mass_factor_kg_s: lips.massFactor,
          protrusion_mm: 1000 * lips.protrusion,
          thickness_mm: 1000 * lips.thickness,
          stiffness_ratio: lips.stiffnessRatio,
        }
      : { mass_kg_m2: lips.massPerArea, mass_exponent: lips.massExponent }),
    quality: lips.quality,
    rest_opening_mm: 1000 * lips.restOpening,
    width_mm: 1000 * lips.width,
  },
  rows: gaps.flatMap(({ gapMm, notes }) =>
    notes.map((note) => ({
      gap_mm: gapMm,
      n: note.n,
      starting_pressure_Pa: note.onset?.mouthPressure ?? null,
      starting_lip_Hz: note.onset?.lipHz ?? null,
      starting_playing_Hz: note.onset?.frequencyHz ?? null,
      mouth_pressure_Pa: note.mouthPressure,
      lip_low_Hz: note.slot?.lipHz[0] ?? null,
      lip_high_Hz: note.slot?.lipHz[1] ?? null,
      playing_frequency_Hz: note.slot?.playingHz ?? null,
      slot_width_cents: slotWidth(note),
      pull: note.slot?.pull ?? null,
      margin: note.slot?.margin ?? null,
      runner_up: note.slot?.runnerUp ?? null,
      note: partialName(note.n, instrument),
    })),
  ),
});

/** A note that is blown and never grows fastest has a slot of no width. */
const slotWidth = ({ slot, mouthPressure }: NoteSlot): number | null =>
  slot?.slotWidthCents ?? (mouthPressure === null ? null : 0);

/** A quantity of a note, in the unit its title names. */
interface Column {
  readonly title: string;
  readonly cell: (note: NoteSlot) => string;
}

const shown = (value: number | null | undefined, digits: number): string => value?.toFixed(digits) ?? "–";
const kilopascals = (pascals: number | null | undefined): string =>
  shown(pascals == null ? null : pascals / 1000, 3);

const THRESHOLD: Column = {
  title: "starting pressure/kPa",
  cell: ({ onset }) => kilopascals(onset?.mouthPressure),
};
const PLAYING: Column = { title: "f/Hz", cell: ({ slot }) => shown(slot?.playingHz, 2) };
const SLOT_WIDTH: Column = { title: "slot width/cents", cell: (note) => shown(slotWidth(note), 1) };
const PULL: Column = { title: "pull", cell: ({ slot }) => shown(slot?.pull, 3) };
const MARGIN: Column = { title: "margin", cell: ({ slot }) => shown(slot?.margin, 2) };
const oneGap = (instrument: InstrumentKind): readonly Column[] => [
  { title: "note", cell: ({ n }) => noteLabel(n, instrument) },
  THRESHOLD,
  { title: "blown/kPa", cell: ({ mouthPressure }) => kilopascals(mouthPressure) },
  { title: "lips from/Hz", cell: ({ slot }) => shown(slot?.lipHz[0], 1) },
  { title: "to/Hz", cell: ({ slot }) => shown(slot?.lipHz[1], 1) },
  PLAYING,
  SLOT_WIDTH,
  PULL,
  MARGIN,
  { title: "before note", cell: ({ slot }) => (slot?.runnerUp ? noteLabel(slot.runnerUp, instrument) : "–") },
];

const massOf = (lips: Lips): string =>
  isTwoWay(lips)
    ? `swinging out and stretching open, ${lips.massFactor} kg/s/((2π)² f), standing ${formatLength(1000 * lips.protrusion, "mm")} into ` +
      `the cup, ${formatLength(1000 * lips.thickness, "mm")} thick, ${lips.stiffnessRatio} times as stiff to stretch as to swing`
    : `${lips.massPerArea} kg/m² at ${MASS_REFERENCE_HZ} Hz ∝ 1/f^${lips.massExponent}`;

function text({ referenceGapMm, pressure, lips, gaps, instrument }: Answer, setup: Setup): string {
  const both = (mm: number) => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;
  const columns = oneGap(instrument);
  const blown =
    "pascals" in pressure
      ? `Blown with ${pressure.pascals / 1000} kPa.`
      : `Each note blown with ${pressure.timesThreshold} times its lowest starting pressure at ${both(referenceGapMm)}, ${gapKindWords(setup, referenceGapMm)}.`;
  const about =
    `${blown}\nLips, which nobody can measure in a playing mouth: ${massOf(lips)}, Q ${lips.quality}, ` +
    `${formatLength(1000 * lips.restOpening, "mm")} open at rest, ${formatLength(1000 * lips.width, "mm")} wide.\n` +
    `${LIP_BIAS[isTwoWay(lips) ? "two-way" : "one-mass"]}; ${ONLY_CHANGES}\n` +
    `Slot width: range of lip frequencies that start the note; pull: 0 locks, 1 follows the lips; margin: starting pressure of the ` +
    `next note over its own.\n`;
  if (gaps.length === 1) {
    const [{ gapMm, notes }] = gaps;
    const rows = notes.map((note) => columns.map(({ cell }) => cell(note)));
    return `${setup.name}: gap ${both(gapMm)}, ${gapKindWords(setup, gapMm)}\n${about}${textTable(
      columns.map(({ title }) => title),
      rows,
    )}`;
  }
  const most = gaps.reduce((best, next) => (next.notes.length > best.notes.length ? next : best)).notes;
  const block = ({ title, cell }: Column): string => {
    const head = ["gap/mm", "gap/in", ...most.map(({ n }) => noteLabel(n, instrument))];
    const rows = gaps.map(({ gapMm, notes }) => [
      gapMm.toFixed(2),
      (gapMm / 25.4).toFixed(3),
      ...most.map((_, i) => (notes[i] ? cell(notes[i]) : "–")),
    ]);
    return `\n${title}\n${textTable(head, rows)}`;
  };
  return `${setup.name}: notes against gap\n${about}${[THRESHOLD, PLAYING, SLOT_WIDTH, PULL, MARGIN].map(block).join("")}`;
}
