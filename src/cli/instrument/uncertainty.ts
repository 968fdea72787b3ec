import { type Command, Option } from "commander";
import {
  type ChangedMode,
  type ChangeUncertainty,
  Contributions,
  changeUncertainty,
  coverageFactor,
  type Drawn,
  formatLength,
  type GapSweep,
  gapKindWords,
  gapSweep,
  Instrument,
  instrumentOf,
  MOST_TRIALS,
  type MonteCarlo,
  monteCarloSteps,
  noteLabel,
  parseLengthMm,
  type Setup,
  type Uncertain,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { wholeParser } from "../terminal/numberText.ts";
import { watch } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

interface Options {
  readonly gap?: string;
  readonly comparedWith: string;
  readonly monteCarlo?: number;
  readonly seed: number;
  readonly format: string;
}

interface Answer {
  readonly sweep: GapSweep;
  readonly uncertainty: ChangeUncertainty;
  readonly monteCarlo: MonteCarlo | null;
}

const COMPARED_WITH = new Option(
  "--compared-with <length>",
  "the gap that changes are counted from, e.g. 2.5mm or 0.1in",
).makeOptionMandatory();

/** `annulus uncertainty SETUP`: how well the change between two gaps is known, and which dimension that hangs on. */
export function uncertaintyCommand(program: Command): void {
  program
    .command("uncertainty")
    .description(
      "how well shifts, heights and spacings between two gaps are known, by first order and by random trials",
    )
    .argument("<setup>", "setup file with its uncertainties, or - for standard input")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .option("--gap <length>", "the other gap (the setup's own)")
    .option(
      "--monte-carlo <trials>",
      "run so many random trials beside the first order",
      wholeParser(2, MOST_TRIALS),
    )
    .option("--seed <number>", "of the draws: the same seed draws the same", wholeParser(0, 999_999_999), 1)
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: Options) => {
      return forEachSetup(path, options.format, {
        study: (setup) => study(setup, options),
        json: asJson,
        rows: (answer) => asJson(answer).rows,
        print: tables,
        formerKeys: FORMER_KEYS,
      });
    });
}

function study(setup: Setup, options: Options): Answer {
  const instrument = new Instrument(setup);
  const referenceGapMm = parseLengthMm(options.comparedWith, setup.units);
  const gapMm = options.gap === undefined ? instrument.gapMm : parseLengthMm(options.gap, setup.units);
  const sweep = gapSweep(instrument, { gapsMm: [gapMm], referenceGapMm });
  const contributions = new Contributions(instrument);
  const uncertainty = changeUncertainty(
    contributions.dimensions,
    contributions.at(referenceGapMm),
    contributions.at(gapMm),
    coverageFactor,
  );
  const { monteCarlo: trials, seed } = options;
  return {
    sweep,
    uncertainty,
    monteCarlo: trials === undefined ? null : drawn(setup, { gapMm, referenceGapMm, trials, seed }),
  };
}

function drawn(setup: Setup, options: Parameters<typeof monteCarloSteps>[1]): MonteCarlo {
  return watch(monteCarloSteps(setup, options), (done) => `instrument ${done} of ${options.trials}`);
}

const QUANTITIES = [
  { key: "shiftCents", name: "shift_cents", of: (mode: ChangedMode) => mode.shiftCents },
  { key: "heightDb", name: "height_dB", of: (mode: ChangedMode) => mode.heightDb },
  { key: "spacingCents", name: "spacing_change_cents", of: (mode: ChangedMode) => mode.spacingChangeCents },
] as const;

/** What random trials told was called drawn. */
const FORMER_KEYS: FormerKeys = {
  compared_with_gap_mm: "reference_gap_mm",
  random_trials: "drawn",
  ...Object.fromEntries(
    QUANTITIES.flatMap(({ name }) =>
      ["mean", "u", "low", "high"].map((what) => [`monte_carlo_${what}_${name}`, `drawn_${what}_${name}`]),
    ),
  ),
};

const known = (uncertain: Uncertain | null, name: string, sources: ChangeUncertainty["sources"]) => ({
  [`u_${name}`]: uncertain?.standard ?? null,
  [`U95_${name}`]: uncertain?.expanded ?? null,
  [`largest_source_of_${name}`]: uncertain && (largest(uncertain, sources)?.name ?? null),
});

const drawnJson = (drawn: Drawn | null, name: string) => ({
  [`monte_carlo_mean_${name}`]: drawn?.mean ?? null,
  [`monte_carlo_u_${name}`]: drawn?.standard ?? null,
  [`monte_carlo_low_${name}`]: drawn?.interval[0] ?? null,
  [`monte_carlo_high_${name}`]: drawn?.interval[1] ?? null,
});

const asJson = ({ sweep, uncertainty, monteCarlo }: Answer) => ({
  compared_with_gap_mm: sweep.referenceGapMm,
  gap_mm: sweep.rows[0].gapMm,
  ...(monteCarlo && { random_trials: monteCarlo.drawn, left_out: monteCarlo.leftOut }),
  rows: uncertainty.modes.map((mode, i) => ({
    n: mode.n,
    ...Object.assign(
      {},
      ...QUANTITIES.map(({ key, name, of }) => ({
        [name]: of(sweep.rows[0].modes[i]),
        ...known(mode[key], name, uncertainty.sources),
        ...(monteCarlo && drawnJson(monteCarlo.modes[i][key], name)),
      })),
    ),
  })),
});

/** The source with the largest share; undefined where nothing is uncertain. */
function largest({ standard, shares }: Uncertain, sources: ChangeUncertainty["sources"]) {
  return standard === 0 ? undefined : sources[shares.indexOf(Math.max(...shares))];
}

const TITLES = {
  shiftCents: "Shift of the resonance, cents",
  heightDb: "Change of peak height, dB",
  spacingCents: "Change of the spacing to the next, cents",
} as const;

function tables({ sweep, uncertainty, monteCarlo }: Answer, setup: Setup): string {
  const { sources, modes } = uncertainty;
  const both = (mm: number) => `${formatLength(mm, "mm")} (${formatLength(mm, "in")})`;
  const [row] = sweep.rows;
  const instrument = instrumentOf(setup);
  const block = ({ key, of }: (typeof QUANTITIES)[number]): string => {
    const digits = key === "heightDb" ? 3 : 2;
    const head = [
      "note",
      "change",
      "±U95",
      "u",
      ...(monteCarlo ? ["u drawn", "drawn from", "to"] : []),
      "most from",
    ];
    const body = modes.map((mode, i) => {
      const uncertain = mode[key];
      const draws = monteCarlo?.modes[i][key];
      const source = uncertain && largest(uncertain, sources);
      const text = (value: number | undefined) => value?.toFixed(digits) ?? "–";
      const drawnCells = [
        text(draws?.standard),
        signed(draws?.interval[0] ?? null, digits),
        signed(draws?.interval[1] ?? null, digits),
      ];
      return [
        noteLabel(mode.n, instrument),
        signed(of(row.modes[i]), digits),
        text(uncertain?.expanded),
        text(uncertain?.standard),
        ...(monteCarlo ? drawnCells : []),
        source ? `${source.name} ${Math.round(100 * uncertain.shares[sources.indexOf(source)])} %` : "–",
      ];
    });
    return `\n${TITLES[key]}\n${textTable(head, body)}`;
  };
  const without =
    sources.length === 0
      ? "No dimension has an uncertainty (uncertainties in the setup file): all are taken as exact.\n"
      : "";
  const draws = monteCarlo
    ? `${monteCarlo.drawn} random trials run${monteCarlo.leftOut > 0 ? `, ${monteCarlo.leftOut} more were impossible (a gap below 0, say) and left out` : ""}.\n`
    : "";
  return [
    `${setup.name}: from ${both(sweep.referenceGapMm)}, ${gapKindWords(setup, sweep.referenceGapMm)}, to ${both(row.gapMm)}, ${gapKindWords(setup, row.gapMm)}; U at 95 %.\n`,
    without,
    draws,
    ...QUANTITIES.map(block),
  ].join("");
}
