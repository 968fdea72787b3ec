import { type Command, Option } from "commander";
import {
  type Advice,
  CONFIRMATION,
  CUT_DIMENSION,
  CUT_OUTCOME,
  type CutCard,
  type CutPlan,
  type CutWay,
  type CutWayName,
  cautionWords,
  cutCard,
  cutQuestion,
  formatLength,
  GAP_KIND,
  gapKindWords,
  HELD_BACK,
  InputError,
  ORDER_OF_REGRET,
  OTHER_WAYS,
  parseLengthMm,
  planCut,
  planWords,
  type Setup,
  SIZE_UNIT,
  stageSize,
  WAY_TITLE,
  wayWords,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

interface Options {
  readonly planned: string;
  readonly gap?: string;
  readonly uncertainty?: string;
  readonly tolerance?: string;
  readonly minimumWall?: string;
  readonly gapPerMark?: string;
  readonly card?: CutWayName;
  readonly confirm?: boolean;
  readonly format: string;
}

interface Answer {
  readonly plan: CutPlan;
  readonly card: CutCard | undefined;
}

const PLANNED = new Option(
  "--planned <length>",
  "the planned gap, to be reached, e.g. 2.0mm or 0.08in",
).makeOptionMandatory();
const GAP_PER_MARK = new Option(
  "--gap-per-mark <length>",
  "change of gap for one mark of an adjustable receiver",
);
const FORMER_KEYS: FormerKeys = { planned_gap_mm: "target_mm" };

/** `annulus cut SETUP`: the ways from your gap to a planned one, in stages. */
export function cutCommand(program: Command): void {
  program
    .command("cut")
    .description(
      "a plan from your gap to the planned one: every way in order of regret, its size, side effects and stages",
    )
    .argument("<setup>", "setup file, or - for standard input")
    .addOption(PLANNED)
    .addOption(formerOption("--target", PLANNED))
    .option("--gap <length>", "the gap as measured, instead of the setup's own")
    .option(
      "--uncertainty <length>",
      "standard uncertainty of the gap, as annulus gap gives it, instead of the setup's",
    )
    .option("--tolerance <length>", "how near the planned gap is near enough (0.05mm)")
    .option("--minimum-wall <length>", "what must be left of the shank's wall (0.4mm)")
    .addOption(GAP_PER_MARK)
    .addOption(formerOption("--stop-per-mark", GAP_PER_MARK))
    .addOption(
      new Option("--card <way>", "the card of one way, for the bench").choices([
        "stop",
        "exchange",
        "turn-down",
        "sleeve",
        "shorten",
      ]),
    )
    .option("--confirm", "I know that this way cannot be undone (for --card)")
    .addOption(formatOption("table", "json"))
    .action((path: string, options: Options) => {
      return forEachSetup(path, options.format, {
        study: (setup) => answer(setup, options),
        json: asJson,
        print: (result, setup) => table(result, setup, options.gap !== undefined),
        formerKeys: FORMER_KEYS,
      });
    });
}

function answer(setup: Setup, options: Options): Answer {
  const length = (name: string, text: string | undefined) =>
    text === undefined ? {} : { [name]: parseLengthMm(text, setup.units) };
  const plan = planCut(
    cutQuestion(setup, {
      targetMm: parseLengthMm(options.planned, setup.units),
      ...length("gapMm", options.gap),
      ...length("standardUncertaintyMm", options.uncertainty),
      ...length("toleranceMm", options.tolerance),
      ...length("minimumWallMm", options.minimumWall),
      ...length("stopMmPerMark", options.gapPerMark),
    }),
  );
  if (plan.outcome === "refused") throw new InputError(planWords(plan).join(" "));
  return { plan, card: options.card === undefined ? undefined : chosenCard(plan, options.card, options) };
}

function chosenCard(plan: CutPlan, name: CutWayName, { confirm }: Options): CutCard {
  const card = cutCard(plan, name);
  const way = plan.ways.find((one) => one.name === name);
  if (way?.isHeldBack)
    throw new InputError(`--card ${name}: ${HELD_BACK} Then add --uncertainty, as annulus gap gives it.`);
  if (card === undefined)
    throw new InputError(
      `--card ${name}: no card, ${way ? wayWords(way, plan.unit)[0] : `since this is no way to ${plan.changeMm! < 0 ? "less" : "more"} gap; leave --card out for the ways there are`}`,
    );
  if (card.needsConfirmation && !confirm)
    throw new InputError(`--card ${name}: ${card.confirmation} Add --confirm to print the card.`);
  return card;
}

const sideEffectJson = ({ what, beforeMm, afterMm }: CutWay["sideEffects"][number]) => ({
  what: CUT_DIMENSION[what],
  before_mm: beforeMm,
  after_mm: afterMm,
});

const asJson = ({ plan, card }: Answer) => ({
  outcome: CUT_OUTCOME[plan.outcome],
  gap_mm: plan.gapMm ?? null,
  planned_gap_mm: plan.targetMm ?? null,
  change_mm: plan.changeMm ?? null,
  expanded_uncertainty_mm: plan.expandedUncertaintyMm ?? null,
  limits_mm: plan.limitsMm ?? null,
  gap_per_worn_diameter: plan.gapPerDiameter ?? null,
  ways: plan.ways.map((way) => ({
    name: way.name,
    title: WAY_TITLE[way.name],
    is_possible: way.isPossible,
    size: way.size ?? null,
    unit: SIZE_UNIT[way.unit],
    side_effects: way.sideEffects.map(sideEffectJson),
    column_change_mm: way.columnChangeMm,
    is_reversible: way.isReversible,
    needs_confirmation: !way.isReversible,
    confirmation: way.isReversible ? null : CONFIRMATION,
    held_back: way.isHeldBack ? HELD_BACK : null,
    stages: way.stages.map((stage) => ({
      gap_before_mm: stage.gapBeforeMm,
      gap_after_mm: stage.gapAfterMm,
      size: stage.size,
      total: stage.total,
      check: stage.check === undefined ? null : sideEffectJson(stage.check),
    })),
    words: wayWords(way, plan.unit),
    cautions: cautionWords(way.cautions, plan),
  })),
  words: planWords(plan),
  cautions: cautionWords(plan.cautions, plan),
  order_of_regret: ORDER_OF_REGRET.lines,
  ways_that_change_every_mouthpiece: OTHER_WAYS.lines,
  card:
    card === undefined
      ? null
      : {
          title: card.title,
          way: card.way,
          limits_mm: card.limitsMm,
          stages: card.stages.map((stage) => ({
            number: stage.number,
            do: stage.doWhat,
            expected_gap_mm: stage.expectedGapMm,
            depth_readings: stage.depthReadings.map(() => null),
            insertion_readings: stage.insertionReadings.map(() => null),
          })),
          confirmation: card.confirmation ?? null,
          doubts: card.doubts,
          notes: card.notes,
          cautions: card.cautions,
        },
});

const both = (lengthMm: number): string =>
  `${formatLength(lengthMm, "mm")} (${formatLength(lengthMm, "in")})`;
const listed = (lines: readonly string[]): string => lines.map((line) => `- ${line}\n`).join("");

function table({ plan, card }: Answer, setup: Setup, isGiven: boolean): string {
  if (card) return cardText(card);
  const { gapMm, targetMm, changeMm, expandedUncertaintyMm, limitsMm } = plan;
  const known = expandedUncertaintyMm === undefined ? "" : ` ± ${formatLength(expandedUncertaintyMm, "mm")}`;
  return [
    `${setup.name}: gap ${both(gapMm!)}${known}, ${isGiven ? GAP_KIND.measured : gapKindWords(setup, gapMm!)}; planned gap ${both(targetMm!)}, ${both(Math.abs(changeMm!))} ${changeMm! < 0 ? "less" : "more"}; done between ${limitsMm!.map(both).join(" and ")}\n`,
    ...planWords(plan).map((line) => `${line}\n`),
    ...plan.ways.map((way) => wayText(way, plan)),
    ...[ORDER_OF_REGRET, OTHER_WAYS].map(adviceText),
    plan.cautions.length > 0 ? `\nCautions\n${listed(cautionWords(plan.cautions, plan))}` : "",
  ].join("");
}

const adviceText = ({ title, lines }: Advice): string => `\n${title}\n${listed(lines)}`;

function wayText(way: CutWay, plan: CutPlan): string {
  const size = way.size === undefined ? "" : `: ${stageSize(way.size, way.unit)}`;
  const undo = way.isReversible ? "can be undone" : "CANNOT BE UNDONE";
  const effects = way.sideEffects.map(
    ({ what, beforeMm, afterMm }) =>
      `${CUT_DIMENSION[what]} ${formatLength(beforeMm, "mm", 3)} to ${formatLength(afterMm, "mm", 3)}`,
  );
  return [
    `\n${WAY_TITLE[way.name]}${size}. ${way.isPossible ? `It ${undo}.` : "Not possible."}\n`,
    ...wayWords(way, plan.unit).map((line) => `${line}\n`),
    ...(way.isPossible
      ? [
          way.isHeldBack ? `${HELD_BACK}\n` : !way.isReversible ? `${CONFIRMATION}\n` : "",
          effects.length > 0 ? `Also: ${effects.join("; ")}.\n` : "",
          `Air column, rim to leadpipe: ${signed(way.columnChangeMm, 2)} mm, for the tuning slide to take up.\n`,
          way.stages.length > 0 ? stageTable(way) : "",
          listed(cautionWords(way.cautions, plan)),
        ]
      : []),
  ].join("");
}

function stageTable({ name, stages, unit }: CutWay): string {
  const digits = name === "stop" ? 1 : 3;
  const check = stages[0].check;
  return textTable(
    [
      "stage",
      SIZE_UNIT[unit],
      "together",
      "gap then/mm",
      ...(check ? [`${CUT_DIMENSION[check.what]}/mm`] : []),
    ],
    stages.map(({ size, total, gapAfterMm, check: after }, i) => [
      `${i + 1}`,
      size.toFixed(digits),
      total.toFixed(digits),
      gapAfterMm.toFixed(2),
      ...(after ? [after.afterMm.toFixed(after.what === "insertion" ? 2 : 3)] : []),
    ]),
  );
}

function cardText(card: CutCard): string {
  const blank = (readings: readonly undefined[]) => readings.map(() => "______").join(" ");
  return [
    `${card.title}\n`,
    `done between ${card.limitsMm.map(both).join(" and ")}\n`,
    card.confirmation ? `${card.confirmation}\n` : "",
    ...card.doubts.map((line) => `${line}\n`),
    ...card.stages.map(
      ({ number, doWhat, expectedGapMm, depthReadings, insertionReadings }) =>
        `\n${number}. ${doWhat}\n   gap to find ${both(expectedGapMm)}   depth ${blank(depthReadings)}   insertion ${blank(insertionReadings)}\n`,
    ),
    `\n${listed([...card.notes, ...card.cautions])}`,
  ].join("");
}
