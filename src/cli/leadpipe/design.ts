import { type Command, Option } from "commander";
import {
  DESIGN_DEFAULTS,
  type Design,
  type DesignGoal,
  type DesignOptions,
  designSteps,
  designWords,
  type Freedom,
  formatLength,
  freedomOf,
  freedomWords,
  gapKindWords,
  gapMm,
  goalLike,
  InputError,
  Instrument,
  isSameGap,
  type MandrelStation,
  mandrelStations,
  PLAYED,
  parseDesignGoal,
  parseLengthMm,
  readSetupText,
  type Setup,
  STATION_DEFAULTS,
  type StartEnd,
  usualLimits,
  worseWords,
  writeSetup,
} from "../../index.ts";
import { textOf } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption } from "../terminal/formerNames.ts";
import { numberParser } from "../terminal/numberText.ts";
import { showProgress } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

/** As they are typed. */
export interface DesignCommandOptions {
  readonly goal?: string;
  readonly like?: string;
  readonly knots: number;
  readonly restarts: number;
  readonly steps: number;
  readonly seed: number;
  readonly smallest?: string;
  readonly largest?: string;
  readonly freeStart?: boolean;
  readonly freeEnd?: boolean;
  readonly mayNarrow?: boolean;
  readonly curvature: string;
  readonly gapFrom?: string;
  readonly gapTo?: string;
  readonly every: string;
  readonly part: number;
  readonly format: string;
}

interface Answer {
  readonly design: Design;
  readonly freedom: Freedom;
  readonly stations: readonly MandrelStation[];
}

const FREE_START = new Option("--free-start", "the diameter at the start of the leadpipe may change");
const FORMER_KEYS: FormerKeys = {
  rms_residual_before: "miss_before",
  rms_residual_after: "miss_after",
  residual: "missed_by",
  rms_residual: "miss",
  singular_value_per_mm: "singular_per_mm",
};

/** `annulus design SETUP`: a leadpipe for a goal. */
export function designCommand(program: Command): void {
  program
    .command("design")
    .description("a leadpipe that brings resonances nearest to a goal, with the stations of its mandrel")
    .argument("<setup>", "setup file, or - for standard input")
    .option(
      "--goal <goal>",
      "cents2=0, cents3=0@2, height4=32 (name, number, value, @weight), or a JSON file of targets; least Σ w·miss², so that @2 counts as if it stood there twice",
    )
    .option("--like <setup>", "instead: equal this setup's resonances and heights, notes 2 to 10")
    .option(
      "--knots <count>",
      "control diameters along the leadpipe, ends included",
      number,
      DESIGN_DEFAULTS.knots,
    )
    .option("--restarts <count>", "starts, your leadpipe the first of them", number, DESIGN_DEFAULTS.restarts)
    .option(
      "--steps <count>",
      "most steps of each start; what has not settled then is not converged",
      number,
      DESIGN_DEFAULTS.stepsEach,
    )
    .option("--seed <seed>", "of the other starts", number, DESIGN_DEFAULTS.seed)
    .option("--smallest <length>", "no diameter below (1 mm less than the leadpipe's least)")
    .option("--largest <length>", "no diameter above (1 mm more than the leadpipe's largest)")
    .addOption(FREE_START)
    .addOption(formerOption("--free-entry", FREE_START))
    .option("--free-end", "the diameter at its end may change")
    .option("--may-narrow", "need not widen throughout, as what is drawn off a mandrel must")
    .option("--curvature <length>", "least radius of curvature of the wall's line, 0 for any", "0mm")
    .option("--gap-from <length>", "the gap may change too, from (as far in as the shank goes)")
    .option("--gap-to <length>", "the gap may change too, to (as far as charts show)")
    .option("--every <length>", "between stations of the mandrel", `${STATION_DEFAULTS.everyMm}mm`)
    .option(
      "--part <share>",
      "of what is just noticeable that all tolerances together may use",
      number,
      STATION_DEFAULTS.part,
    )
    .addOption(formatOption("table", "json", "csv"))
    .action((path: string, options: DesignCommandOptions) =>
      forEachSetup(path, options.format, {
        study: (setup) => answerOf(setup, options),
        json: asJson,
        rows: ({ stations }) => stations.map(stationRow),
        print: (answer, setup) => text(answer, setup, options.part),
        formerKeys: FORMER_KEYS,
      }),
    );
}

async function answerOf(setup: Setup, options: DesignCommandOptions): Promise<Answer> {
  const everyMm = parseLengthMm(options.every, setup.units);
  const design = await watched(setup, designOptions(setup, options));
  return {
    design,
    freedom: freedomOf(design.problem, design.variables),
    stations: mandrelStations(new Instrument(design.setup), design.gapMm, { everyMm, part: options.part }),
  };
}

const number = numberParser(Number.isFinite, "give a number.");

/** What the options ask of this setup. */
export function designOptions(setup: Setup, options: DesignCommandOptions): DesignOptions {
  const length = (typed: string) => parseLengthMm(typed, setup.units);
  const { smallest, largest, gapFrom, gapTo, steps } = options;
  const usual = usualLimits(setup);
  if (!Number.isInteger(steps) || steps < 1 || steps > 10_000)
    throw new InputError(`--steps: ${steps} is no number of steps; give a whole number from 1 to 10000`);
  return {
    goal: goalOf(options),
    limits: {
      knots: options.knots,
      holdsEntry: options.freeStart !== true,
      holdsEnd: options.freeEnd !== true,
      smallestMm: smallest === undefined ? usual.smallestMm : length(smallest),
      largestMm: largest === undefined ? usual.largestMm : length(largest),
      widens: options.mayNarrow !== true,
      leastCurvatureRadiusMm: length(options.curvature),
      gapMm:
        gapFrom === undefined && gapTo === undefined
          ? null
          : [
              gapFrom === undefined ? usual.gap.leastMm : length(gapFrom),
              gapTo === undefined ? usual.gap.mostMm : length(gapTo),
            ],
    },
    restarts: options.restarts,
    seed: options.seed,
    stepsEach: steps,
  };
}

function goalOf({ goal, like }: DesignCommandOptions): DesignGoal {
  if ((goal === undefined) === (like === undefined))
    throw new InputError(
      "give either --goal with targets, such as cents2=0,cents3=0, or --like with a setup file",
    );
  if (like !== undefined) {
    const instrument = new Instrument(readSetupText(textOf(like, "a setup file")));
    return goalLike(instrument.modes(instrument.gapMm), PLAYED);
  }
  return parseDesignGoal(
    goal!.includes("=") ? goal! : textOf(goal!, "a goal's JSON file, or targets such as cents2=0"),
  );
}

/** Every step shown on a terminal; an interrupt ends the search with the best so far, a second one at once. */
async function watched(setup: Setup, asked: DesignOptions): Promise<Design> {
  const steps = designSteps(setup, asked);
  let isStopped = false;
  process.once("SIGINT", () => {
    isStopped = true;
  });
  for (;;) {
    const { done, value } = steps.next(isStopped);
    if (done) {
      showProgress(null);
      if (isStopped) process.stderr.write("annulus: interrupted; this is the best so far\n");
      return value;
    }
    showProgress(
      `start ${value.start} of ${value.of}, step ${value.step}: ${value.miss.toPrecision(4)}, best ${value.best.toPrecision(4)}`,
    );
    // lets an interrupt in
    await new Promise(setImmediate);
  }
}

const stationRow = ({ positionMm, diameterMm, toleranceMm }: MandrelStation) => ({
  position_mm: Number(positionMm.toFixed(3)),
  diameter_mm: Number(diameterMm.toFixed(4)),
  tolerance_mm: Number(toleranceMm.toPrecision(2)),
});

const ENDED: Readonly<Record<StartEnd, string>> = {
  converged: "converged",
  "not-converged": "not converged",
  stopped: "stopped",
};

const asJson = ({ design, freedom, stations }: Answer) => ({
  made_worse: worseWords(design),
  rms_residual_before: design.missBefore,
  rms_residual_after: design.missAfter,
  gap_mm: design.gapMm,
  targets: design.targets.map(
    ({ quantity, n, target, weight, before, after, missedBefore, missedBy, isWorse }) => ({
      quantity,
      n,
      target,
      weight,
      before,
      after,
      residual_before: missedBefore,
      residual: missedBy,
      is_worse: isWorse,
    }),
  ),
  knots: design.knots.map(({ positionMm, diameterMm }) => ({
    position_mm: positionMm,
    diameter_mm: diameterMm,
  })),
  spline_off_by_mm: design.splineOffByMm,
  narrows_by_mm: design.narrowsByMm,
  starts: design.starts.map(({ miss, steps, ended, diametersMm }) => ({
    rms_residual: miss,
    steps,
    ended: ENDED[ended],
    diameters_mm: diametersMm,
  })),
  freedom: {
    settled: freedom.settled,
    settled_mm: freedom.settledMm,
    words: freedomWords(freedom),
    directions: freedom.directions.map(({ singularPerMm, changeMm }) => ({
      singular_value_per_mm: singularPerMm,
      change_mm: changeMm,
    })),
  },
  stations: stations.map(stationRow),
  setup: writeSetup(design.setup),
});

function text({ design, freedom, stations }: Answer, setup: Setup, part: number): string {
  const targets = design.targets.map(({ quantity, n, target, before, after, missedBy }) => [
    `${quantity}${n}`,
    target.toFixed(2),
    before?.toFixed(2) ?? "–",
    after?.toFixed(2) ?? "–",
    signed(missedBy, 2),
  ]);
  const worse = worseWords(design);
  const starts = design.starts.map(({ miss, steps, ended, diametersMm }, i) => [
    `${i + 1}`,
    `${steps}`,
    ENDED[ended],
    miss.toPrecision(3),
    diametersMm.map((d) => d.toFixed(2)).join(" "),
  ]);
  return [
    `${design.setup.name}: a leadpipe for the goal, gap ${formatLength(design.gapMm, "mm")}, ${isSameGap(design.gapMm, gapMm(setup)) ? gapKindWords(setup, design.gapMm) : `designed, from ${formatLength(gapMm(setup), "mm")} ${gapKindWords(setup, gapMm(setup))}`}\n`,
    ...(worse ? [`${worse}\n`] : []),
    `Weighted r.m.s. miss ${design.missBefore.toPrecision(3)} before, ${design.missAfter.toPrecision(3)} after (cents, dB).\n`,
    textTable(["target", "wanted", "before", "after", "off by"], targets),
    `\nStarts, and where each came to\n${textTable(["start", "steps", "ended", "miss", "knots/mm"], starts)}`,
    `\n${[freedomWords(freedom), ...designWords(design, "mm")].join("\n")}\n`,
    `\nMandrel: ± on the diameter, so that all stations together use up ${part} of what is just noticeable at most\n`,
    textTable(
      ["x/mm", "diameter/mm", "±/mm"],
      stations.map(({ positionMm, diameterMm, toleranceMm }) => [
        positionMm.toFixed(2),
        diameterMm.toFixed(3),
        toleranceMm.toPrecision(2),
      ]),
    ),
  ].join("");
}
