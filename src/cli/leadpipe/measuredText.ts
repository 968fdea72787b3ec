/** A measured impedance beside the model's as a person reads it. */
import {
  apartWords,
  type ColumnFit,
  columnFitWords,
  type Estimate,
  formatLength,
  gapKindWords,
  type InstrumentKind,
  instrumentOf,
  noteLabel,
  type Overlay,
  peakWords,
  readingWords,
  type Setup,
} from "../../index.ts";
import { signed, textTable } from "../terminal/table.ts";
import type { MeasuredAnswer } from "./measuredAnswer.ts";

export function measuredText({ measured, before, fit, after, offers }: MeasuredAnswer, setup: Setup): string {
  return [
    `${setup.name}: gap ${formatLength(before.gapMm, "mm")} (${formatLength(before.gapMm, "in")}), ${gapKindWords(setup, before.gapMm)}, against ${measured.frequencies.length} measured points\n`,
    `Read as: ${readingWords(measured)}\n`,
    ...(offers.level ? [`\n${offers.level}\n`] : []),
    `\nMeasured less model${fit ? ", as the setup has it" : ""}\n`,
    differences(before, instrumentOf(setup)),
    ...(fit && after
      ? [
          "\nFitted, at 95 %\n",
          estimates(fit),
          ...correlations(fit),
          "\nMeasured less model, fitted\n",
          differences(after, instrumentOf(setup)),
        ]
      : []),
    ...(fit ? columnFitWords(fit) : []).map((words) => `\n${words}\n`),
    ...(offers.bell ? [`${offers.bell}\n`] : []),
  ].join("");
}

function differences(overlaid: Overlay, instrument: InstrumentKind): string {
  const { peaks } = overlaid;
  const head = ["note", "model/Hz", "measured/Hz", "cents", "height/dB", "model Q", "measured Q"];
  const rows = peaks.map(({ n, model, measured, cents, heightDb }) => [
    noteLabel(n, instrument),
    model.frequencyHz.toFixed(2),
    measured?.frequencyHz.toFixed(2) ?? "–",
    signed(cents, 1),
    signed(heightDb, 2),
    model.Q.toFixed(1),
    measured?.Q.toFixed(1) ?? "–",
  ]);
  return `${textTable(head, rows)}Over all frequencies: ${apartWords(overlaid)} root mean square.\n${peakWords(overlaid, instrument).join("\n")}\n`;
}

function estimates({ estimates: all, scatterDb, scatterDegrees, startDb }: ColumnFit): string {
  const rows = all.map((estimate) => {
    const { name, unit, start } = estimate.unknown;
    const digits = digitsOf(estimate);
    return [
      `${name}${unit && `/${unit}`}`,
      start.toFixed(digits),
      estimate.value.toFixed(digits),
      estimate.standard?.toFixed(digits) ?? "unknown",
      estimate.interval?.[0].toFixed(digits) ?? "–",
      estimate.interval?.[1].toFixed(digits) ?? "–",
    ];
  });
  return (
    textTable(["unknown", "setup", "fitted", "u", "from", "to"], rows) +
    `Left over: ${scatterDb.toFixed(3)} dB${scatterDegrees === null ? "" : ` and ${scatterDegrees.toFixed(2)}°`}, from ${startDb.toFixed(3)} dB.\n`
  );
}

/** As many that the uncertainty has two figures. */
const digitsOf = ({ standard }: Estimate): number =>
  standard === null || !(standard > 0) ? 3 : Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(standard))));

function correlations({ correlation, estimates: all }: ColumnFit): string[] {
  if (!correlation || all.length < 2) return [];
  const pairs = all.flatMap(({ unknown }, i) =>
    all
      .slice(0, i)
      .map((other, k) => `${other.unknown.name} and ${unknown.name} ${signed(correlation[i][k], 2)}`),
  );
  return [`Correlations: ${pairs.join("; ")}.\n`];
}
