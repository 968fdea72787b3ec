import type { Command } from "commander";
import {
  breathOf,
  formatLength,
  gapKindWords,
  Instrument,
  type InstrumentKind,
  inContext,
  instrumentOf,
  type Mode,
  type ModeInContext,
  noteLabel,
  parseLengthMm,
  partialName,
  type Setup,
} from "../../index.ts";
import { breathOption } from "../terminal/breathOption.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { modeCount } from "../terminal/numberText.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

interface Answer {
  readonly gapMm: number;
  readonly litresPerMinute: number;
  readonly modes: readonly ModeInContext[];
  /** Peaks with the most and with the least that the stream may take; null in still air. */
  readonly bounds: readonly (readonly Mode[])[] | null;
  readonly instrument: InstrumentKind;
}

/** `annulus modes SETUP`: resonances and peaks at one gap. */
export function modesCommand(program: Command): void {
  program
    .command("modes")
    .description("resonances and impedance peaks at one gap")
    .argument("<setup>", "setup file, or - for standard input")
    .option("--gap <length>", "gap instead of the setup's own, e.g. 2.54mm or 0.1in")
    .option("--modes <count>", "how many resonances, from the lowest", modeCount, 12)
    .addOption(breathOption())
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: { gap?: string; modes: number; breath: number; format: string }) => {
      const study = (setup: Setup): Answer => {
        const under = (figure: "lower" | "estimate" | "upper") =>
          new Instrument(setup, { modes: options.modes, breath: breathOf(setup, options.breath, figure) });
        const instrument = under("estimate");
        const gapMm = options.gap === undefined ? instrument.gapMm : parseLengthMm(options.gap, setup.units);
        return {
          gapMm,
          litresPerMinute: options.breath,
          modes: inContext(instrument.modes(gapMm)),
          bounds: options.breath === 0 ? null : [under("upper").modes(gapMm), under("lower").modes(gapMm)],
          instrument: instrumentOf(setup),
        };
      };
      return forEachSetup(path, options.format, {
        study,
        json: asJson,
        rows: (answer) => asJson(answer).modes.map((mode) => ({ gap_mm: answer.gapMm, ...mode })),
        print: table,
      });
    });
}

const asJson = ({ gapMm, litresPerMinute, modes, bounds, instrument }: Answer) => ({
  gap_mm: gapMm,
  ...(bounds && { litres_per_minute: litresPerMinute }),
  instrument,
  modes: modes.map((mode, i) => ({
    n: mode.n,
    frequency_Hz: mode.frequencyHz,
    Q: mode.Q,
    peak_frequency_Hz: mode.peakHz,
    peak_Pa_s_m3: mode.peakImpedance,
    equivalent_fundamental_Hz: mode.equivalentFundamentalHz,
    equivalent_cents: mode.equivalentCents,
    spacing_Hz: mode.spacingHz,
    spacing_cents: mode.spacingCents,
    note: partialName(mode.n, instrument),
    ...(bounds && { peak_low_Pa_s_m3: peakOf(bounds[0], i), peak_high_Pa_s_m3: peakOf(bounds[1], i) }),
  })),
});

const peakOf = (modes: readonly Mode[], i: number): number | null => modes[i]?.peakImpedance ?? null;

function table({ gapMm, litresPerMinute, modes, bounds, instrument }: Answer, setup: Setup): string {
  const head = [
    "note",
    "f/Hz",
    "Q",
    "peak/Hz",
    "|Z|/MPa·s/m³",
    "(f/n)/Hz",
    "cents",
    "to next/Hz",
    "to next/cents",
  ];
  const rows = modes.map((mode) => [
    noteLabel(mode.n, instrument),
    mode.frequencyHz.toFixed(2),
    mode.Q.toFixed(1),
    mode.peakHz?.toFixed(2) ?? "–",
    mode.peakImpedance === null ? "–" : (mode.peakImpedance / 1e6).toFixed(2),
    mode.equivalentFundamentalHz.toFixed(2),
    signed(mode.equivalentCents, 1),
    mode.spacingHz?.toFixed(2) ?? "–",
    mode.spacingCents?.toFixed(1) ?? "–",
  ]);
  const blown = bounds
    ? `, ${litresPerMinute} L/min through it; peaks by the estimate of what the stream takes`
    : "";
  return `${setup.name}: gap ${formatLength(gapMm, "mm")} (${formatLength(gapMm, "in")}), ${gapKindWords(setup, gapMm)}${blown}\n${textTable(head, rows)}`;
}
