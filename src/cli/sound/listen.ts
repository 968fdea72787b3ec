import { closeSync, openSync, readFileSync, readSync } from "node:fs";
import { type Command, Option } from "commander";
import {
  type Attacks,
  InputError,
  listenTo,
  type Missed,
  type Slot,
  type Slurs,
  TAKE_TESTS,
  type Take,
  type TakeTest,
  wavBlocks,
} from "../../index.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { listenWarningWords } from "../../words/listen/listenWarning.ts";
import { percent } from "../../words/numbers.ts";
import { cannotBeRead } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { signed, textTable } from "../terminal/table.ts";
import { parseHertz, parseHertzList } from "./frequencyText.ts";

interface Options {
  readonly test: TakeTest;
  readonly near?: string;
  readonly notes?: string;
  readonly format: string;
}

/** `annulus listen TAKE.wav`: pitch, slot, slurs or attacks of a recording. */
export function listenCommand(program: Command): void {
  program
    .command("listen")
    .description("what a recording holds: held notes, a slot bent to its edges, slurs or attacks")
    .argument("<take>", "recording, a WAV file, or - for standard input")
    .addOption(new Option("--test <test>", "what was played").choices(TAKE_TESTS).makeOptionMandatory())
    .option("--near <hertz>", "the note meant, e.g. 466Hz")
    .option("--notes <hertz>", "every note that exists, neighbours included: 349Hz,466Hz,586Hz")
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: Options) => {
      const question = {
        test: options.test,
        nearHz: options.near === undefined ? null : parseHertz("--near", options.near),
        notesHz: options.notes === undefined ? [] : parseHertzList("--notes", options.notes),
      };
      const chunks = chunksOf(path);
      const take = named(path, () => listenTo(() => wavBlocks(chunks()), question));
      const warnings = take.warnings.map(listenWarningWords);
      if (options.format === "json")
        process.stdout.write(`${JSON.stringify({ ...asJson(take), warnings }, null, 1)}\n`);
      else {
        for (const warning of warnings) process.stderr.write(`annulus: warning: ${warning}\n`);
        process.stdout.write(options.format === "csv" ? csvOfObjects(rowsOf(take)) : text(take));
      }
    });
}

/** Says of which file an error is. */
function named<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof InputError)
      throw new InputError(`${path === "-" ? "standard input" : path}: ${error.message}`);
    throw error;
  }
}

const CHUNK_BYTES = 1 << 18;

/** A file's bytes, piece by piece, from its beginning each time they are asked for. */
function chunksOf(path: string): () => Iterable<Uint8Array> {
  try {
    if (path === "-") {
      const whole = readFileSync(0);
      return () => [whole];
    }
    closeSync(openSync(path, "r"));
  } catch (error) {
    throw cannotBeRead(path, error, "a recording");
  }
  return function* () {
    const file = openSync(path, "r");
    try {
      while (true) {
        const chunk = new Uint8Array(CHUNK_BYTES);
        const length = readSync(file, chunk);
        if (length === 0) return;
        yield chunk.subarray(0, length);
      }
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === undefined) throw error;
      throw cannotBeRead(path, error, "a recording");
    } finally {
      closeSync(file);
    }
  };
}

const rounded = (value: number | null | undefined, digits: number): number | null =>
  value == null ? null : Number(value.toFixed(digits));

const asJson = (take: Take) => ({
  test: take.test,
  sample_rate_hz: take.sampleRateHz,
  seconds: rounded(take.levels.seconds, 3),
  level_dbfs: rounded(take.levels.levelDbfs, 1),
  noise_dbfs: rounded(take.levels.noiseDbfs, 1),
  clipped_samples: take.levels.clippedSamples,
  ...findingJson(take),
});

function findingJson(take: Take) {
  switch (take.test) {
    case "steady":
      return { notes: rowsOf(take) };
    case "slot":
      return { slot: take.slot && slotJson(take.slot), bends: rowsOf(take) };
    case "slur":
      return { slurs: rowsOf(take), missed: take.slurs && missedJson(take.slurs.missed) };
    case "attack":
      return { attacks: rowsOf(take), missed: take.attacks && missedJson(take.attacks.missed) };
  }
}

const slotJson = ({ restHz, low, high, widthCents, widthUCents }: Slot) => ({
  rest_hz: rounded(restHz, 3),
  low_hz: rounded(low?.hz, 3),
  high_hz: rounded(high?.hz, 3),
  width_cents: rounded(widthCents, 2),
  width_u_cents: rounded(widthUCents, 2),
  low_break: low?.breaks ?? null,
  high_break: high?.breaks ?? null,
  low_scatter_cents: rounded(low?.scatterCents, 2),
  high_scatter_cents: rounded(high?.scatterCents, 2),
});

const missedJson = ({ count, of, interval }: Missed) => ({
  count,
  of,
  share: of === 0 ? null : count / of,
  interval,
});

/** What was found, a row each, as CSV and JSON name it. */
function rowsOf(take: Take): object[] {
  switch (take.test) {
    case "steady":
      return take.notes.map(({ fromS, toS, hz, uCents, scatterCents }) => ({
        from_s: rounded(fromS, 3),
        to_s: rounded(toS, 3),
        hz: rounded(hz, 3),
        cents_u: rounded(uCents, 2),
        scatter_cents: rounded(scatterCents, 2),
      }));
    case "slot":
      return (take.slot?.bends ?? []).map(({ side, end, atS, hz, cents }) => ({
        at_s: rounded(atS, 3),
        side,
        hz: rounded(hz, 3),
        cents: rounded(cents, 2),
        end,
      }));
    case "slur":
      return (take.slurs?.slurs ?? []).map(({ atS, fromHz, toHz, landedHz, result, settleS }) => ({
        at_s: rounded(atS, 3),
        from_hz: rounded(fromHz, 2),
        to_hz: rounded(toHz, 2),
        landed_hz: rounded(landedHz, 2),
        result,
        settle_s: rounded(settleS, 3),
      }));
    case "attack":
      return (take.attacks?.attacks ?? []).map(({ atS, landedHz, result, settleS }) => ({
        at_s: rounded(atS, 3),
        landed_hz: rounded(landedHz, 2),
        result,
        settle_s: rounded(settleS, 3),
      }));
  }
}

function text(take: Take): string {
  const { seconds, levelDbfs, noiseDbfs } = take.levels;
  const level = (dbfs: number | null) => (dbfs === null ? "silence" : `${dbfs.toFixed(0)} dB`);
  const rows = rowsOf(take);
  const table =
    rows.length === 0
      ? "nothing found\n"
      : textTable(
          Object.keys(rows[0]).map((key) => HEADS[key] ?? key),
          rows.map((row) => Object.values(row).map((value) => (value === null ? "–" : `${value}`))),
        );
  return `${seconds.toFixed(1)} s; playing ${level(levelDbfs)}, room ${level(noiseDbfs)} of full scale\n${table}${summary(take)}`;
}

/** What the columns of JSON and CSV are called for a person. */
const HEADS: Readonly<Record<string, string>> = {
  at_s: "at/s",
  from_s: "from/s",
  to_s: "to/s",
  hz: "pitch/Hz",
  from_hz: "from/Hz",
  to_hz: "to/Hz",
  landed_hz: "landed/Hz",
  settle_s: "settled in/s",
  cents_u: "u/cents",
  scatter_cents: "scatter/cents",
};

function summary(take: Take): string {
  switch (take.test) {
    case "steady":
      return "";
    case "slot":
      return take.slot ? slotText(take.slot) : "";
    case "slur":
      return take.slurs ? missedText(take.slurs) : "";
    case "attack":
      return take.attacks ? missedText(take.attacks) : "";
  }
}

function slotText({ restHz, low, high, widthCents, widthUCents }: Slot): string {
  const edge = (side: Slot["low"]) =>
    side === null
      ? "unknown"
      : `${signed(side.cents, 1)} cents (${side.breaks ? "breaks" : "does not always break"}${side.scatterCents === null ? "" : `, scatter ${side.scatterCents.toFixed(1)}`})`;
  const width =
    widthCents === null
      ? "unknown"
      : `${widthCents.toFixed(1)}${widthUCents === null ? "" : ` ± ${widthUCents.toFixed(1)} (standard uncertainty)`} cents`;
  return `Slot of ${restHz.toFixed(2)} Hz: low end ${edge(low)}, high end ${edge(high)}; width ${width}.\n`;
}

function missedText({ missed: { count, of, interval } }: Slurs | Attacks): string {
  if (of === 0) return "";
  return `Missed ${count} of ${of}: ${percent(count / of)}, 95 % interval ${percent(interval[0])} to ${percent(interval[1])}.\n`;
}
