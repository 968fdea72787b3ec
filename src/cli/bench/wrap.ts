import { type Command, Option } from "commander";
import {
  formatLength,
  gapKindWords,
  gapMm,
  InputError,
  MEASURE_A_WRAP,
  parseLengthMm,
  planWrap,
  type Setup,
  setupSeatTaper,
  taperWords,
  WRAP_ONLY_WIDENS,
  WRAP_THICKNESS_MM,
  type WrapPlan,
  wrapForGapMm,
  wrapWords,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { forEachSetup } from "../terminal/setups.ts";

interface Options {
  readonly thickness?: readonly string[];
  readonly change?: string;
  readonly planned?: string;
  readonly gap?: string;
  readonly format: string;
}

interface Answer {
  readonly gapMm: number;
  readonly seatTaper: number;
  /** The gap to be tried, and how thick a wrap gives it; undefined where none was asked for. */
  readonly wanted: { readonly gapMm: number; readonly thicknessMm: number } | undefined;
  readonly wraps: readonly WrapPlan[];
}

/** `annulus wrap SETUP`: a wider gap tried with a wrap, from thickness to change of gap and back. */
export function wrapCommand(program: Command): void {
  program
    .command("wrap")
    .description("a wider gap tried with a wrap of foil or paper: thickness to change of gap, and back")
    .argument("<setup>", "setup file, or - for standard input")
    .option(
      "--thickness <length...>",
      "one layer of each foil or paper, as measured: what does it do to the gap?",
    )
    .option("--change <length>", "how much wider: how thick a wrap is that?")
    .addOption(
      new Option(
        "--planned <length>",
        "the gap to be tried, wider than yours: how thick a wrap is that?",
      ).conflicts("change"),
    )
    .option("--gap <length>", "the gap as measured, instead of the setup's own")
    .addOption(formatOption("table", "json"))
    .addHelpText("after", `\n${WRAP_ONLY_WIDENS} ${MEASURE_A_WRAP}\nCommon practice, no source.`)
    .action((path: string, options: Options) =>
      forEachSetup(path, options.format, {
        study: (setup) => answer(setup, options),
        json: asJson,
        print: (result, setup) => table(result, setup, options.gap !== undefined),
      }),
    );
}

function answer(setup: Setup, { thickness = [], change, planned, gap }: Options): Answer {
  if (thickness.length === 0 && change === undefined && planned === undefined)
    throw new InputError(
      "a wrap of what, or for what; give --thickness 0.01mm for what it does, or --change 0.4mm or --planned 3mm for how thick it is to be",
    );
  const { depthMm } = setup.receiver;
  const seatTaper = setupSeatTaper(setup);
  if (wrapForGapMm(1, seatTaper) <= 0)
    throw new InputError("nothing stops a shank without a taper, so no wrap sets its gap; give the taper");
  const presentMm = gap === undefined ? gapMm(setup) : parseLengthMm(gap, setup.units);
  if (!(presentMm >= 0 && presentMm < depthMm))
    throw new InputError(
      `--gap: the gap is ${formatLength(presentMm, "mm")}; give 0 to less than the receiver's depth, ${formatLength(depthMm, "mm")}`,
    );
  const plannedMm =
    planned !== undefined
      ? parseLengthMm(planned, setup.units)
      : change !== undefined
        ? presentMm + parseLengthMm(change, setup.units)
        : undefined;
  if (plannedMm !== undefined && !(plannedMm > presentMm && plannedMm < depthMm))
    throw new InputError(
      `${planned === undefined ? "--change" : "--planned"}: ${
        plannedMm >= depthMm ? "a gap as wide as the receiver is deep" : "a wrap only ever widens the gap"
      }; give ${planned === undefined ? "more than 0 and less than" : `more than ${formatLength(presentMm, "mm")} and less than`} ${formatLength(planned === undefined ? depthMm - presentMm : depthMm, "mm")}, or see annulus cut for the other ways`,
    );
  return {
    gapMm: presentMm,
    seatTaper,
    wanted:
      plannedMm === undefined
        ? undefined
        : { gapMm: plannedMm, thicknessMm: wrapForGapMm(plannedMm - presentMm, seatTaper) },
    wraps: thickness.map((typed) => wrapOf(typed, setup, { seatTaper, gapMm: presentMm, plannedMm })),
  };
}

function wrapOf(
  typed: string,
  { units }: Setup,
  of: { readonly seatTaper: number; readonly gapMm: number; readonly plannedMm: number | undefined },
): WrapPlan {
  const thicknessMm = parseLengthMm(typed, units);
  const [least, most] = WRAP_THICKNESS_MM;
  const plan = thicknessMm >= least && thicknessMm <= most ? planWrap({ thicknessMm, ...of }) : undefined;
  if (!plan)
    throw new InputError(
      `--thickness: ${formatLength(thicknessMm, "mm", 3)} is no layer of a wrap; give ${formatLength(least, "mm", 3)} to ${formatLength(most, "mm", 3)}`,
    );
  return plan;
}

const asJson = ({ gapMm: presentMm, seatTaper, wanted, wraps }: Answer) => ({
  gap_mm: presentMm,
  seat_taper: seatTaper,
  planned_gap_mm: wanted?.gapMm ?? null,
  change_mm: wanted ? wanted.gapMm - presentMm : null,
  wrap_thickness_mm: wanted?.thicknessMm ?? null,
  wraps: wraps.map(({ thicknessMm, perLayerMm, layers, gapMm: thenMm }) => ({
    thickness_mm: thicknessMm,
    change_per_layer_mm: perLayerMm,
    layers: layers ?? null,
    gap_mm: thenMm ?? null,
  })),
  cautions: [WRAP_ONLY_WIDENS, MEASURE_A_WRAP],
});

const both = (lengthMm: number, digits: 2 | 3 = 2): string =>
  `${formatLength(lengthMm, "mm", digits)} (${formatLength(lengthMm, "in", digits === 2 ? 3 : 4)})`;

function table(
  { gapMm: presentMm, seatTaper, wanted, wraps }: Answer,
  setup: Setup,
  isGiven: boolean,
): string {
  return [
    `${setup.name}: gap ${both(presentMm)}, ${isGiven ? "measured" : gapKindWords(setup, presentMm)}\n`,
    `the taper that stops the shank: ${taperWords(seatTaper)}\n`,
    wanted
      ? `for ${both(wanted.gapMm - presentMm)} more gap, ${both(wanted.gapMm)}: a wrap ${both(wanted.thicknessMm, 3)} thick all round\n`
      : "",
    ...wraps.map((plan) => `${both(plan.thicknessMm, 3)} thick: ${wrapWords(plan, setup.units)}\n`),
    `${WRAP_ONLY_WIDENS} ${MEASURE_A_WRAP}\n`,
  ].join("");
}
