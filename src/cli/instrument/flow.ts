import { type Command, Option } from "commander";
import {
  type Bounded,
  formatLength,
  gapKindWords,
  InputError,
  Instrument,
  type InstrumentKind,
  instrumentOf,
  isSameGap,
  type LevelLoss,
  levelLoss,
  NOT_KNOWN,
  noteLabel,
  gapMm as ownGapMm,
  type PartDrop,
  parseLengthMm,
  quoteTyped,
  RESISTANCE_FINDING,
  type Resistance,
  type ResistanceChangeLike,
  resistanceChangeLike,
  resistanceCurve,
  resistanceFindingAt,
  type Setup,
  throatEdgeWords,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { numberTyped } from "../terminal/numberText.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

interface Options {
  readonly gap?: string;
  readonly comparedWith?: string;
  readonly litresPerMinute: string;
  readonly justNoticeable?: string;
  readonly level?: string;
  readonly format: string;
}

interface Answer {
  readonly flows: readonly Resistance[];
  /** One a flow; none where the gap is the reference itself. */
  readonly changes: readonly ResistanceChangeLike[];
  /** Null unless asked for. */
  readonly levels: readonly LevelLoss[] | null;
}

const COMPARED_WITH = new Option(
  "--compared-with <length>",
  "gap that changes are counted from (the setup's own)",
);
const JUST_NOTICEABLE = new Option(
  "--just-noticeable <percent>",
  "smallest change of the whole that is noticed (the setup's own)",
);
const FORMER_KEYS: FormerKeys = {
  compared_with_gap_mm: "reference_gap_mm",
  just_noticeable_percent: "threshold_percent",
  finding_at_half_just_noticeable: "finding_at_half_threshold",
  finding_at_twice_just_noticeable: "finding_at_twice_threshold",
};

/** `annulus flow SETUP`: how hard it blows, part by part, and what loudness does to its peaks. */
export function flowCommand(program: Command): void {
  program
    .command("flow")
    .description("steady pressure drop part by part, the gap's bounds, and peak heights from soft to loud")
    .argument("<setup>", "setup file, or - for standard input")
    .option("--gap <length>", "gap instead of the setup's own, e.g. 2.54mm or 0.1in")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .option("--litres-per-minute <flows>", "flow, or several: 5,10,20,40,60", "20")
    .addOption(JUST_NOTICEABLE)
    .addOption(formerOption("--threshold", JUST_NOTICEABLE))
    .option("--level <dB>", "levels at the rim, e.g. 120,140,160: adds peak heights (csv: instead)")
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: Options) => {
      const litresPerMinute = numberList(
        "--litres-per-minute",
        options.litresPerMinute,
        "20 or 5,10,20,40,60",
      );
      const [thresholdPercent] =
        options.justNoticeable === undefined
          ? []
          : numberList("--just-noticeable", options.justNoticeable, "10");
      const levelsDb =
        options.level === undefined ? null : numberList("--level", options.level, "120,140,160");
      const study = (setup: Setup): Answer => {
        const length = (text: string | undefined) =>
          text === undefined ? ownGapMm(setup) : parseLengthMm(text, setup.units);
        const gapMm = length(options.gap);
        const referenceGapMm = length(options.comparedWith);
        const other = !isSameGap(gapMm, referenceGapMm);
        return {
          flows: resistanceCurve(setup, litresPerMinute, gapMm),
          changes: other
            ? litresPerMinute.map((flow) =>
                resistanceChangeLike(setup, {
                  gapMm,
                  referenceGapMm,
                  litresPerMinute: flow,
                  ...(thresholdPercent !== undefined && { thresholdPercent }),
                }),
              )
            : [],
          levels:
            levelsDb &&
            levelLoss(new Instrument(setup), {
              gapsMm: other ? [referenceGapMm, gapMm] : [gapMm],
              levelsDb,
            }),
        };
      };
      return forEachSetup(path, options.format, {
        study,
        json: asJson,
        rows: csvRows,
        print: text,
        formerKeys: FORMER_KEYS,
      });
    });
}

function numberList(option: string, text: string, example: string): number[] {
  const numbers = text.split(",").map(numberTyped);
  if (numbers.every(Number.isFinite)) return numbers;
  throw new InputError(`${option}: ${quoteTyped(text)} is not a number or a list of them; give ${example}`);
}

const regime = ({ regimes: [low, high] }: PartDrop): string => (low === high ? low : `${low} to ${high}`);

const partJson = (part: PartDrop) => ({
  part: part.part,
  entry_mm: part.entryMm,
  exit_mm: part.exitMm,
  reynolds_low: part.reynolds[0],
  reynolds_high: part.reynolds[1],
  regime: regime(part),
  friction_Pa: part.frictionPa,
  area_change_Pa: part.areaChangePa,
  drop_Pa: part.dropPa,
  share: part.share,
  lower_Pa: part.boundsPa[0],
  upper_Pa: part.boundsPa[1],
});

const asJson = ({ flows, changes, levels }: Answer) => ({
  gap_mm: flows[0].gapMm,
  flows: flows.map((flow) => ({
    litres_per_minute: flow.litresPerMinute,
    drop_Pa: flow.dropPa,
    resistance_Pa_s_m3: flow.resistance,
    mach: flow.mach,
    gap: { edge: flow.gap.edge, drop_Pa: flow.gap.dropPa, share: flow.gap.share },
    throat_edge: { drop_Pa: flow.throatEdge.dropPa, is_measured: flow.throatEdge.isMeasured },
    parts: flow.parts.map(partJson),
  })),
  changes: changes.map((change) => ({
    compared_with_gap_mm: change.reference.gapMm,
    litres_per_minute: change.reference.litresPerMinute,
    change_Pa: change.changePa,
    change_percent: change.changePercent,
    range_percent: change.rangePercent,
    just_noticeable_percent: change.thresholdPercent,
    finding_at_half_just_noticeable: RESISTANCE_FINDING[resistanceFindingAt(change, 0.5)],
    finding_at_twice_just_noticeable: RESISTANCE_FINDING[resistanceFindingAt(change, 2)],
    finding: RESISTANCE_FINDING[change.finding],
    equivalent_bore_mm: change.equivalentBoreMm,
  })),
  ...(levels === null
    ? {}
    : { levels: levels.map(({ gapMm, modes }) => ({ gap_mm: gapMm, rows: modes.flatMap(levelRows) })) }),
  not_known: NOT_KNOWN,
});

const levelRows = ({ n, softHz, softImpedance, levels }: LevelLoss["modes"][number]) =>
  levels.map((point) => ({
    n,
    soft_Hz: softHz,
    soft_Pa_s_m3: softImpedance,
    level_dB: point.levelDb,
    peak_Hz: point.peakHz,
    peak_Pa_s_m3: point.peakImpedance,
    height_dB: point.heightDb,
    gap_alone_lower_dB: point.gapAloneDb.lower,
    gap_alone_estimate_dB: point.gapAloneDb.estimate,
    gap_alone_upper_dB: point.gapAloneDb.upper,
  }));

function csvRows({ flows, levels }: Answer): object[] {
  if (levels)
    return levels.flatMap(({ gapMm, modes }) =>
      modes.flatMap(levelRows).map((row) => ({ gap_mm: gapMm, ...row })),
    );
  return flows.flatMap(({ gapMm, litresPerMinute, parts }) =>
    parts.map((part) => ({
      gap_mm: gapMm,
      litres_per_minute: litresPerMinute,
      ...partJson(part),
    })),
  );
}

const both = (mm: number) => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;

const figures = ({ lower, estimate, upper }: Bounded, print: (value: number) => string, unit: string) =>
  `${print(lower)} (all of the jet caught), ${print(estimate)} (as it spreads), ${print(upper)} ${unit} (none caught)`;

function text({ flows, changes, levels }: Answer, setup: Setup): string {
  return [
    ...flows.map((flow, i) => flowText(flow, setup) + (changes[i] ? changeText(changes[i], setup) : "")),
    ...(levels ?? []).map((loss) => levelText(loss, instrumentOf(setup))),
    `Not known to a steady one-dimensional estimate:\n${NOT_KNOWN.map((line) => `  ${line}\n`).join("")}`,
  ].join("\n");
}

function flowText(flow: Resistance, setup: Setup): string {
  const { gapMm, litresPerMinute, parts, gap, dropPa, resistance } = flow;
  const edge = throatEdgeWords(flow);
  const head = ["part", "from/mm", "to/mm", "Re", "regime", "friction/Pa", "area/Pa", "drop/Pa", "%"];
  const rows = parts.map((part) => [
    part.part,
    part.entryMm.toFixed(2),
    part.exitMm.toFixed(2),
    part.reynolds.map((value) => value.toFixed(0)).join("–"),
    regime(part),
    part.frictionPa.toFixed(2),
    part.areaChangePa.toFixed(2),
    part.dropPa.toFixed(2),
    (100 * part.share).toFixed(2),
  ]);
  const whole = dropPa.estimate.toFixed(2);
  return [
    `${setup.name}: gap ${both(gapMm)}, ${gapKindWords(setup, gapMm)}, ${litresPerMinute} L/min\n`,
    textTable(head, [...rows, ["whole", "", "", "", "", "", "", whole, ""]]),
    `Gap: ${figures(gap.dropPa, (pa) => pa.toFixed(2), "Pa")}; the leadpipe's edge ${gap.edge}.\n`,
    `The gap's share: ${figures(gap.share, (share) => (100 * share).toFixed(2), "%")}.\n`,
    edge && `${edge}\n`,
    resistance
      ? `Resistance (drop over flow): ${(resistance.estimate / 1e6).toPrecision(4)} MPa·s/m³.\n`
      : "Resistance (drop over flow): none is defined without flow.\n",
  ].join("");
}

function changeText(change: ResistanceChangeLike, setup: Setup): string {
  const { reference, changePa, changePercent, expandedPercent, rangePercent, thresholdPercent, finding } =
    change;
  const bore = change.equivalentBoreMm.estimate;
  return [
    `Compared with a gap of ${both(reference.gapMm)}, ${gapKindWords(setup, reference.gapMm)}: ${signed(changePa.estimate, 2)} Pa, ${signed(changePercent.estimate, 2)} %; `,
    `with the bounds${expandedPercent === null ? "" : ", on instruments like it"}, anything from ${signed(rangePercent[0], 2)} to ${signed(rangePercent[1], 2)} %.\n`,
    `Rule: a wider gap blows tighter. Model: ${RESISTANCE_FINDING[finding]} (just noticeable: ${thresholdPercent} %).\n`,
    bore === null
      ? "No leadpipe bore changes the drop as much.\n"
      : `As much as a leadpipe bore changed by ${signed(bore, 3)} mm throughout.\n`,
  ].join("");
}

function levelText({ gapMm, modes }: LevelLoss, instrument: InstrumentKind): string {
  const levels = modes[0]?.levels.map(({ levelDb }) => levelDb) ?? [];
  const head = ["note", "soft/Hz", "|Z|/MPa·s/m³", ...levels.flatMap((dB) => [`${dB} dB`, "gap alone"])];
  const rows = modes.map(({ n, softHz, softImpedance, levels }) => [
    noteLabel(n, instrument),
    softHz.toFixed(2),
    (softImpedance / 1e6).toFixed(2),
    ...levels.flatMap(({ heightDb, gapAloneDb }) => [signed(heightDb, 2), signed(gapAloneDb.estimate, 3)]),
  ]);
  return (
    `Gap ${both(gapMm)}: change of peak height, dB, with the level at the rim, by throat and gap together and by the gap alone\n` +
    textTable(head, rows)
  );
}
