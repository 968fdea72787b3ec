/** Everything measured as one table, in both units: for a file that another program or another year can read. */

import type { Table } from "../../../charts/kit/drawing.ts";
import { inUnit } from "../../../charts/kit/numbers.ts";
import { componentName } from "../../../words/bench/budget.ts";
import { adviceWords } from "../../../words/bench/gapAdvice.ts";
import { type Measurement, measuredLength, outlyingRow } from "../../state/bench/measurement.ts";
import type { LengthName, MeasureNotes } from "../../state/notes/measure.ts";

type Row = readonly [
  item: string,
  mm: number | "",
  inches: number | "",
  degrees: number | string,
  share: number | "",
  note: string,
];

const COLUMNS = ["item", "mm", "in", "degrees of freedom", "share of variance", "note"] as const;

const row = (
  item: string,
  mm: number | undefined,
  { degrees = undefined as number | undefined, share = undefined as number | undefined, note = "" } = {},
): Row => [
  item,
  mm ?? "",
  mm === undefined ? "" : inUnit(mm, "in"),
  degrees === undefined ? "" : Number.isFinite(degrees) ? degrees : "infinite",
  share ?? "",
  note,
];

export function measureTable(read: Measurement, notes: MeasureNotes): Table {
  return {
    columns: COLUMNS,
    rows: [...readings(read, "depth"), ...readings(read, "insertion"), ...tools(notes), ...result(read)],
  };
}

function readings(read: Measurement, length: LengthName): Row[] {
  const apart = outlyingRow(read, length);
  return read[length].flatMap(({ text, lengthMm, problem, number }, i) => {
    if (text.trim() === "") return [];
    if (problem) return [row(`${length} reading`, undefined, { note: `typed ${text}: not counted` })];
    const note = `typed ${text} (${read.unit})${i === apart ? "; stands apart from the others, counted" : ""}`;
    return [row(`${length} reading ${number}`, lengthMm, { note })];
  });
}

/** As typed: what cannot be read is not counted. */
const tools = ({ depthTool, insertionTool, sameTool, unit }: MeasureNotes): Row[] =>
  (sameTool
    ? ([["tool of both lengths", depthTool]] as const)
    : ([
        ["depth tool", depthTool],
        ["insertion tool", insertionTool],
      ] as const)
  ).flatMap(([name, tool]) =>
    (
      [
        ["smallest step", tool.resolution],
        ["shows at zero", tool.zero],
        ["standard uncertainty of the zero", tool.zeroUncertainty],
      ] as const
    ).map(([part, text]) =>
      row(`${name}: ${part}`, undefined, {
        note: text.trim() === "" ? "not given" : `typed ${text} (${unit})`,
      }),
    ),
  );

function result({ measured, refused, unit }: Measurement): Row[] {
  if (!measured) return refused ? [row("gap", undefined, { note: refused })] : [];
  const lengths = (["depth", "insertion"] as const).flatMap((length) => {
    const { lengthMm, uncertainty } = measuredLength(measured, length);
    return [
      row(length, lengthMm, { note: "mean of the readings, zero of the tool taken off" }),
      row(`${length}: standard uncertainty`, uncertainty?.standard, {
        degrees: uncertainty?.degreesOfFreedom,
        note: uncertainty ? "" : "unknown",
      }),
    ];
  });
  const { standardUncertaintyMm, degreesOfFreedom, coverageFactor, intervalMm, confidence } = measured;
  const percent = `${100 * confidence} %`;
  return [
    ...lengths,
    row("gap", measured.gapMm, { note: "depth less insertion" }),
    row("gap: standard uncertainty", standardUncertaintyMm, {
      degrees: degreesOfFreedom,
      note:
        coverageFactor === undefined
          ? "unknown"
          : `coverage factor ${coverageFactor.toFixed(3)} for ${percent}`,
    }),
    ...(intervalMm
      ? [
          row(`gap: ${percent} interval, low`, intervalMm[0]),
          row(`gap: ${percent} interval, high`, intervalMm[1]),
        ]
      : []),
    ...measured.budget.map(
      ({ component, standardUncertainty, degreesOfFreedom: degrees, varianceShare: share }) =>
        row(`budget, ${componentName(component)}`, standardUncertainty, {
          degrees,
          share,
          note: standardUncertainty === undefined ? "unknown" : "",
        }),
    ),
    ...measured.advice.map((one) => row("advice", undefined, { note: adviceWords(one, unit) })),
  ];
}
