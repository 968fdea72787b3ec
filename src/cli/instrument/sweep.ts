import { type Command, Option } from "commander";
import {
  breathOf,
  type ChangedMode,
  formatLength,
  type GapSweep,
  gapKindWords,
  gapSweep,
  Instrument,
  instrumentOf,
  noteLabel,
  noteText,
  parseLengthMm,
  parseRange,
  type Setup,
} from "../../index.ts";
import { breathOption } from "../terminal/breathOption.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { modeCount } from "../terminal/numberText.ts";
import { counting } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

const COMPARED_WITH = new Option(
  "--compared-with <length>",
  "gap that changes are counted from (the setup's own)",
);
const FORMER_KEYS: FormerKeys = { compared_with_gap_mm: "reference_gap_mm" };

/** `annulus sweep SETUP`: every resonance at every gap. */
export function sweepCommand(program: Command): void {
  program
    .command("sweep")
    .description("shift, height and spacing of every resonance against gap, as it is or retuned")
    .argument("<setup>", "setup file, or - for standard input")
    .option("--gaps <range>", "start:stop:step, e.g. 0:8:0.25 (mm) or 0in:1/4in:1/64in", "0mm:8mm:0.25mm")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .option("--retune <n>", "bring resonance n back with the tuning slide", modeCount)
    .option("--modes <count>", "how many resonances, from the lowest", modeCount, 12)
    .addOption(breathOption())
    .addOption(formatOption("table", "csv", "json"))
    .action(
      (
        path: string,
        options: {
          gaps: string;
          comparedWith?: string;
          retune?: number;
          modes: number;
          breath: number;
          format: string;
        },
      ) => {
        const study = (setup: Setup): GapSweep => {
          const instrument = new Instrument(setup, {
            modes: options.modes,
            breath: breathOf(setup, options.breath),
          });
          return gapSweep(
            instrument,
            {
              gapsMm: parseRange(options.gaps, setup.units),
              referenceGapMm:
                options.comparedWith === undefined
                  ? instrument.gapMm
                  : parseLengthMm(options.comparedWith, setup.units),
              ...(options.retune === undefined ? {} : { retune: options.retune }),
            },
            counting("gap"),
          );
        };
        return forEachSetup(path, options.format, {
          study,
          json: asJson,
          rows: (sweep) => asJson(sweep).rows,
          print: tables,
          formerKeys: FORMER_KEYS,
        });
      },
    );
}

const asJson = ({ referenceGapMm, retune, rows }: GapSweep) => ({
  compared_with_gap_mm: referenceGapMm,
  retune,
  rows: rows.flatMap(({ gapMm, slideMm, modes }) =>
    modes.map((mode) => ({
      gap_mm: gapMm,
      slide_mm: slideMm,
      n: mode.n,
      frequency_Hz: mode.frequencyHz,
      Q: mode.Q,
      peak_frequency_Hz: mode.peakHz,
      peak_Pa_s_m3: mode.peakImpedance,
      shift_cents: mode.shiftCents,
      height_dB: mode.heightDb,
      spacing_Hz: mode.spacingHz,
      spacing_cents: mode.spacingCents,
      spacing_change_cents: mode.spacingChangeCents,
      equivalent_fundamental_Hz: mode.equivalentFundamentalHz,
    })),
  ),
});

/** Three tables a technician reads across: one row a gap, one column a note. */
function tables(sweep: GapSweep, setup: Setup): string {
  const { referenceGapMm, retune, reference, rows } = sweep;
  const instrument = instrumentOf(setup);
  const both = (mm: number) => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;
  const block = (title: string, cell: (mode: ChangedMode) => string): string => {
    const slide = retune === null ? [] : ["slide/mm"];
    const head = ["gap/mm", "gap/in", ...slide, ...reference.map(({ n }) => noteLabel(n, instrument))];
    const body = rows.map(({ gapMm, slideMm, modes }) => [
      gapMm.toFixed(2),
      (gapMm / 25.4).toFixed(3),
      ...slide.map(() => signed(slideMm, 2)),
      ...reference.map((_, i) => (modes[i] ? cell(modes[i]) : "–")),
    ]);
    return `\n${title}\n${textTable(head, body)}`;
  };
  const { cents, decibels } = setup.thresholds;
  const how =
    retune === null ? "as it is" : `${noteText(retune, instrument)} brought back by the tuning slide`;
  return [
    `${setup.name}: resonances 1 to ${reference.length} against gap, ${how}; changes from ${both(referenceGapMm)}, ${gapKindWords(setup, referenceGapMm)}.\n`,
    `A shift below ${cents} cents or a height change below ${decibels} dB is too small to notice.\n`,
    block("Shift of the resonance, cents", (mode) => signed(mode.shiftCents, 1)),
    block("Change of peak height, dB", (mode) => signed(mode.heightDb, 2)),
    block("Spacing to the next resonance, Hz", (mode) => mode.spacingHz?.toFixed(2) ?? "–"),
    block("Change of that spacing, cents", (mode) => signed(mode.spacingChangeCents, 1)),
  ].join("");
}
