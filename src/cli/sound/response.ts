import type { Command } from "commander";
import { type Response, responseOf } from "../../index.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { RESPONSE_WARNING } from "../../words/response/responseWarning.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { textTable } from "../terminal/table.ts";
import { soundOf } from "./soundFile.ts";

interface Options {
  readonly excitation: string;
  readonly format: string;
}

/** `annulus response RECORDING.wav`: the resonances that a recording of an excitation tells of. */
export function responseCommand(program: Command): void {
  program
    .command("response")
    .description("an instrument's resonances from the recording of a sweep, or of any other excitation")
    .argument("<recording>", "what the microphone heard, a WAV file, or - for standard input")
    .requiredOption("--excitation <wav>", "what the loudspeaker played")
    .addOption(formatOption("table", "csv", "json"))
    .addHelpText(
      "after",
      "\nhz is the real part of a resonance's complex frequency, q is hz over twice its imaginary part; hz_u and q_u are the\nhalves of their 95 % intervals. The first channel is read. Heights are not told: nothing here is calibrated.",
    )
    .action((path: string, { excitation, format }: Options) => {
      const response = responseOf(soundOf(excitation)[0], soundOf(path)[0]);
      const warnings = response.warnings.map((warning) => RESPONSE_WARNING[warning]);
      if (format === "json")
        process.stdout.write(`${JSON.stringify({ ...asJson(response), warnings }, null, 1)}\n`);
      else {
        for (const warning of warnings) process.stderr.write(`annulus: warning: ${warning}\n`);
        const rows = rowsOf(response);
        process.stdout.write(format === "csv" ? csvOfObjects(rows) : text(response, rows));
      }
    });
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

const rowsOf = ({ resonances }: Response) =>
  resonances.map(({ n, hz, hzUncertainty, q, qUncertainty }) => ({
    n,
    hz: rounded(hz, 3),
    hz_u: rounded(hzUncertainty, 4),
    q: rounded(q, 2),
    q_u: rounded(qUncertainty, 3),
  }));

const asJson = (response: Response) => ({
  resonances: rowsOf(response),
  delay_s: rounded(response.delay, 5),
  signal_to_noise_db: response.signalToNoiseDb === null ? null : rounded(response.signalToNoiseDb, 1),
  from_hz: rounded(response.band[0], 1),
  to_hz: rounded(response.band[1], 1),
});

function text({ delay, signalToNoiseDb, band }: Response, rows: ReturnType<typeof rowsOf>): string {
  const noise =
    signalToNoiseDb === null
      ? "no silence before it to tell the noise by"
      : `${signalToNoiseDb.toFixed(0)} dB over the noise`;
  const head = `${band[0].toFixed(0)} to ${band[1].toFixed(0)} Hz, ${(1000 * delay).toFixed(1)} ms late, ${noise}\n`;
  if (rows.length === 0) return `${head}no resonance can be told\n`;
  return (
    head +
    textTable(
      ["n", "f/Hz", "±", "Q", "±"],
      rows.map(({ n, hz, hz_u, q, q_u }) => [
        `${n}`,
        hz.toFixed(2),
        hz_u.toFixed(2),
        q.toFixed(1),
        q_u.toFixed(1),
      ]),
    )
  );
}
