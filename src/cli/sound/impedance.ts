import type { Command } from "commander";
import {
  type CalibratedImpedance,
  calibratedImpedance,
  calibrationWarnings,
  InputError,
  type KnownTube,
  parseLengthMm,
  quoteTyped,
  type RigTake,
  type Sound,
  type StraightTube,
  transfers,
  UNSEEN,
} from "../../index.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { numberOf } from "../terminal/numberText.ts";
import { soundOf } from "./soundFile.ts";

interface Options {
  readonly excitation?: string;
  readonly tube: readonly string[];
  readonly temperature: string;
  readonly humidity: string;
  readonly lengthUncertainty: string;
  readonly boreUncertainty: string;
  readonly temperatureUncertainty: string;
  readonly format: string;
}

interface TubeFile {
  readonly tube: StraightTube;
  readonly path: string;
}

/** Of a half interval of 95 %. */
const COVERAGE = 1.96;
const CO2 = 0.0004;
const PRESSURE_PA = 101_325;

/** `annulus impedance RECORDING.wav`: the input impedance, told by the same rig on tubes that are known. */
export function impedanceCommand(program: Command): void {
  program
    .command("impedance")
    .description("an instrument's input impedance, from its recording and those of known straight tubes")
    .argument("<recording>", "what the microphone heard on the instrument, a WAV file")
    .option("--excitation <wav>", "what the loudspeaker played; without it the recordings' second channel")
    .requiredOption(
      "--tube <what>",
      "closed:LENGTH:BORE=FILE or open:LENGTH:BORE=FILE, a tube's recording; three at least, four better",
      (text: string, before: readonly string[] = []) => [...before, text],
    )
    .option("--temperature <degrees>", "of the room, °C", "20")
    .option("--humidity <percent>", "of the room", "50")
    .option("--length-uncertainty <length>", "± of the tubes' lengths, 95 %", "0.1mm")
    .option("--bore-uncertainty <length>", "± of their bores, 95 %", "0.02mm")
    .option("--temperature-uncertainty <degrees>", "± of the temperature, 95 %, °C", "0.5")
    .addOption(formatOption("csv", "json"))
    .addHelpText(
      "after",
      `
Lengths run from the face that the instrument's mouthpiece is held to. Record all of them in one go, on one device, with
nothing of the rig moved; where the device begins a recording a little earlier or later each time, record what is played on a
second channel. Frequencies that the tubes do not tell are left out. The CSV is what "annulus measured" reads; |Z|_u and
phase_u are the halves of 95 % intervals. Plane waves at the mouth are assumed: best are tubes as wide as the rim.
${UNSEEN}

  annulus impedance horn.wav --excitation sweep.wav --tube closed:60:12=a.wav --tube closed:97:12=b.wav \\
    --tube closed:151:12=c.wav --tube open:210:12=d.wav > horn.csv`,
    )
    .action((path: string, options: Options) => {
      const tubes = options.tube.map(tubeOf);
      const excitation = options.excitation === undefined ? undefined : soundOf(options.excitation)[0];
      const { hz, responses } = transfers([path, ...tubes.map((one) => one.path)].map(takeOf(excitation)));
      const [asked, ...known] = responses;
      const result = calibratedImpedance(
        tubes.map(({ tube }, k): KnownTube => ({ ...tube, response: known[k] })),
        asked,
        hz,
        {
          temperatureC: numberOf("--temperature", options.temperature, [-20, 50]),
          humidity: numberOf("--humidity", options.humidity, [0, 100]) / 100,
          co2: CO2,
          pressurePa: PRESSURE_PA,
        },
        {
          length: lengthOf("--length-uncertainty", options.lengthUncertainty) / COVERAGE,
          radius: lengthOf("--bore-uncertainty", options.boreUncertainty) / 2 / COVERAGE,
          temperatureC:
            numberOf("--temperature-uncertainty", options.temperatureUncertainty, [0, 20]) / COVERAGE,
        },
      );
      const warnings = calibrationWarnings(result);
      if (options.format === "json")
        process.stdout.write(
          `${JSON.stringify({ impedance: rowsOf(result), disagreement: result.disagreement, warnings }, null, 1)}\n`,
        );
      else {
        for (const warning of warnings) process.stderr.write(`annulus: warning: ${warning}\n`);
        process.stdout.write(csvOfObjects(rowsOf(result)));
      }
    });
}

const takeOf =
  (excitation: Sound | undefined) =>
  (path: string): RigTake => {
    const [recording, second] = soundOf(path);
    const played = excitation ?? second;
    if (!played)
      throw new InputError(
        `${path}: it has one channel, and no --excitation is given; give the file that was played, or record it on a second channel`,
      );
    return { excitation: played, recording };
  };

function tubeOf(text: string): TubeFile {
  const [, end, length, bore, path] = /^(closed|open):([^:=]+):([^:=]+)=(.+)$/.exec(text) ?? [];
  if (path === undefined)
    throw new InputError(
      `--tube: ${quoteTyped(text)} is no tube; give one such as closed:120mm:12mm=tube.wav`,
    );
  return {
    tube: {
      end: end as StraightTube["end"],
      length: lengthOf("--tube", length),
      radius: lengthOf("--tube", bore) / 2,
    },
    path,
  };
}

/** m, above 0. */
function lengthOf(option: string, text: string): number {
  const lengthMm = parseLengthMm(text, "mm");
  if (lengthMm > 0 && lengthMm < 10_000) return lengthMm / 1000;
  throw new InputError(`${option}: ${quoteTyped(text)} cannot be; give more than 0 mm, to 10 m`);
}

const rowsOf = ({ frequencies, magnitude, phase, magnitudeExpanded, phaseExpanded }: CalibratedImpedance) =>
  Array.from(frequencies, (hz, i) => ({
    frequency_Hz: Number(hz.toFixed(4)),
    "|Z|_Pa·s/m3": Number(magnitude[i].toPrecision(7)),
    phase_rad: Number(phase[i].toFixed(6)),
    "|Z|_u": Number((magnitude[i] * magnitudeExpanded[i]).toPrecision(3)),
    phase_u: Number(phaseExpanded[i].toPrecision(3)),
  })).filter((row) => Number.isFinite(row["|Z|_u"]));
