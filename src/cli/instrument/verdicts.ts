/** `annulus verdicts SETUP`: the trade's claims beside the model, with what would be found at other thresholds. */
import { type Command, Option } from "commander";
import {
  atOtherThresholds,
  breathOf,
  type Claim,
  closedSteps,
  type Evidence,
  Exploration,
  evidenceWords,
  FINDING,
  feltSteps,
  formatLength,
  Instrument,
  type InstrumentKind,
  instrumentOf,
  MODAL_COUNT,
  noticeableLines,
  parseLengthMm,
  RULE,
  type Setup,
  thresholdCheck,
} from "../../index.ts";
import { breathOption } from "../terminal/breathOption.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { counting } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";

interface Options {
  readonly gap: string;
  readonly comparedWith?: string;
  readonly breath: number;
  readonly format: string;
}

interface Answer {
  readonly gapMm: number;
  readonly referenceGapMm: number;
  readonly instrument: InstrumentKind;
  readonly thresholds: Setup["thresholds"];
  readonly claims: readonly { readonly claim: Claim; readonly evidence: Evidence }[];
}

const COMPARED_WITH = new Option("--compared-with <length>", "gap it is compared with (the setup's own)");
const FORMER_KEYS: FormerKeys = {
  compared_with_gap_mm: "reference_gap_mm",
  finding_at_half_just_noticeable: "finding_at_half_threshold",
  finding_at_twice_just_noticeable: "finding_at_twice_threshold",
};

export function verdictsCommand(program: Command): void {
  program
    .command("verdicts")
    .description("what the trade says of the gap, beside what the model finds between two gaps")
    .argument("<setup>", "setup file, or - for standard input")
    .requiredOption("--gap <length>", "gap to look at, e.g. 2.54mm or 0.1in")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .addOption(breathOption())
    .addOption(formatOption("table", "json"))
    .action((path: string, options: Options) => {
      return forEachSetup(path, options.format, {
        study: (setup) => study(setup, options),
        json: asJson,
        print: text,
        formerKeys: FORMER_KEYS,
      });
    });
}

function study(setup: Setup, { gap, comparedWith, breath: litresPerMinute }: Options): Answer {
  const breath = breathOf(setup, litresPerMinute);
  const instrument = new Instrument(setup, { modes: MODAL_COUNT, breath });
  const gapMm = parseLengthMm(gap, setup.units);
  const referenceGapMm =
    comparedWith === undefined ? instrument.gapMm : parseLengthMm(comparedWith, setup.units);
  const question = { referenceGapMm, litresPerMinute: 20 };
  const told = counting("set of lips");
  const finished = <Result>(
    steps: Generator<{ readonly done: number; readonly of: number }, Result, void>,
  ): Result => {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      told(step.value.done, step.value.of);
    }
  };
  const felt = finished(feltSteps(instrument, { ...question, gapMm }));
  const onLips: Partial<Record<Claim, Evidence>> = {
    ...felt,
    noGap: finished(closedSteps(instrument, question)),
  };
  const { verdicts } = new Exploration(setup, undefined, breath).explore(gapMm, referenceGapMm, 4);
  return {
    gapMm,
    referenceGapMm,
    instrument: instrumentOf(setup),
    thresholds: setup.thresholds,
    claims: verdicts.map(({ claim, finding, basis, tests }) => ({
      claim,
      evidence: onLips[claim] ?? { finding: finding ?? "not-possible", basis, tests },
    })),
  };
}

const asJson = ({ gapMm, referenceGapMm, instrument, thresholds, claims }: Answer) => ({
  gap_mm: gapMm,
  compared_with_gap_mm: referenceGapMm,
  instrument,
  just_noticeable: {
    pitch_cents: thresholds.cents,
    peak_height_dB: thresholds.decibels,
    slot_width_cents: thresholds.slotCents,
    pressure_percent: thresholds.pressurePercent,
    sources: noticeableLines(thresholds),
  },
  claims: claims.map(({ claim, evidence }) => {
    const other = atOtherThresholds(evidence);
    return {
      claim,
      rule: RULE[claim],
      finding: FINDING[evidence.finding],
      finding_at_half_just_noticeable: other && FINDING[other.half],
      finding_at_twice_just_noticeable: other && FINDING[other.twice],
      words: evidenceWords(evidence, instrument),
      tests: evidence.tests.map((test) => ({
        quantity: test.quantity,
        unit: test.unit,
        just_noticeable: test.threshold,
        mean: test.together.change,
        finding: FINDING[test.finding],
        changes: test.changes.map(({ n, change, expanded, range }) => ({
          n,
          change,
          U95: expanded,
          range: range ?? null,
        })),
      })),
    };
  }),
});

function text({ gapMm, referenceGapMm, instrument, thresholds, claims }: Answer, setup: Setup): string {
  const both = (mm: number) => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;
  return [
    `${setup.name}: from ${both(referenceGapMm)} to ${both(gapMm)}\n`,
    ...claims.map(({ claim, evidence }) => {
      const lines = [
        `“${RULE[claim]}”`,
        `  Model: ${FINDING[evidence.finding]}. ${evidenceWords(evidence, instrument)}`,
        ...(thresholdCheck(evidence) ? [`  ${thresholdCheck(evidence)}`] : []),
      ];
      return `\n${lines.join("\n")}\n`;
    }),
    "\nJust noticeable\n",
    ...noticeableLines(thresholds).map((line) => `  ${line}\n`),
  ].join("");
}
