/** A comparison as a maker reads it across: one row a variant, one column a note. */
import {
  type Compared,
  type Comparison,
  formatLength,
  gapKindWords,
  instrumentOf,
  noteLabel,
  noteText,
  type Variant,
  worstPlace,
} from "../../index.ts";
import { signed, textTable } from "../terminal/table.ts";

/** Distance from an error's peak to its foot, mm. */
export const EXTENT_MM = 10;

export function comparisonText(
  { reference, retune, ranking, variants }: Comparison,
  asked: readonly Variant[],
  errorMm: number,
): string {
  const numbered = variants.map((one, i) => ({ ...one, title: `${i + 1} ${one.name.slice(0, 40)}` }));
  const { setup } = asked[reference];
  const instrument = instrumentOf(setup);
  const width = Math.max(...variants.map(({ modes }) => modes.length));
  const block = (title: string, cells: (one: (typeof numbered)[number]) => (string | null)[]): string => {
    const head = [
      "variant",
      "gap/mm",
      ...Array.from({ length: width }, (_, i) => noteLabel(i + 1, instrument)),
    ];
    const rows = numbered.map((one) => {
      const found = cells(one);
      return [one.title, one.gapMm.toFixed(2), ...Array.from({ length: width }, (_, i) => found[i] ?? "–")];
    });
    return `\n${title}\n${textTable(head, rows)}`;
  };
  const { cents, decibels } = setup.thresholds;
  const after =
    retune === null
      ? "as it is"
      : `after ${noteText(retune, instrument)} was brought to that of the one compared with`;
  const shown = (one: Compared) => (one.refusal === null ? (one.retuned?.modes ?? one.modes) : []);
  const moved = numbered.flatMap(({ title, retuned, refusal }) =>
    refusal !== null
      ? [`${title}: not retuned: ${refusal}\n`]
      : retuned
        ? [`${title}: ${signed(retuned.drawMm, 2)} mm by ${retuned.by}\n`]
        : [],
  );
  return [
    `${variants.length} candidates compared with number ${reference + 1}, ${after}.\n`,
    `A shift below ${cents} cents or a height change below ${decibels} dB is too small to notice.\n`,
    ...numbered.map(
      ({ title, gapMm }, i) =>
        `${title}: gap ${formatLength(gapMm, "mm")}, ${gapKindWords(asked[i].setup, gapMm)}\n`,
    ),
    ...moved,
    block(`Equivalent fundamental, cents from the candidate's own common one, ${after}`, (one) =>
      shown(one).map((mode) => signed(mode.equivalentCents, 1)),
    ),
    block(`Peak, MPa·s/m³, ${after}`, (one) =>
      shown(one).map(({ peakImpedance }) =>
        peakImpedance === null ? null : (peakImpedance / 1e6).toFixed(2),
      ),
    ),
    block(`Q, ${after}`, (one) => shown(one).map(({ Q }) => Q.toFixed(1))),
    block(`Shift from the one compared with, cents, ${after}`, (one) =>
      shown(one).map((mode) => signed(mode.shiftCents, 1)),
    ),
    block(`Change of peak height, dB, ${after}`, (one) => shown(one).map((mode) => signed(mode.heightDb, 2))),
    ...(variants[0].notes
      ? [
          block("Slot width, cents (notes 2 and up)", ({ notes }) =>
            notesRow(notes, ({ slot }) => slot?.slotWidthCents.toFixed(0)),
          ),
          block("Pull (0 locks, 1 follows the lips)", ({ notes }) =>
            notesRow(notes, ({ slot }) => slot?.pull.toFixed(3)),
          ),
        ]
      : []),
    ...(variants[0].sensitivity
      ? [
          block("A mm more gap, cents", ({ sensitivity }) =>
            sensitivity!.modes.map(({ gapCentsPerMm }) => signed(gapCentsPerMm, 2)),
          ),
          block(
            `The worst place for ${formatLength(errorMm, "mm")} more diameter over ±${EXTENT_MM} mm, cents`,
            ({ sensitivity }) =>
              sensitivity!.modes.map(({ centsPerMm }) =>
                signed(worstPlace(sensitivity!, centsPerMm, errorMm).change, 2),
              ),
          ),
          block("where that is, mm from the rim", ({ sensitivity }) =>
            sensitivity!.modes.map(({ centsPerMm }) =>
              worstPlace(sensitivity!, centsPerMm, errorMm).place.fromRimMm.toFixed(0),
            ),
          ),
        ]
      : []),
    `\nSteady pressure over flow, at 20 L/min, MPa·s/m³\n${numbered
      .map(
        ({ title, gapMm, resistance }) =>
          `${title}, gap ${gapMm.toFixed(2)} mm: ${(resistance!.resistance!.estimate / 1e6).toFixed(4)}\n`,
      )
      .join("")}`,
    ...(ranking
      ? [
          `\nRanking, lowest score first\n${textTable(
            ["place", "score", "gap/mm", "variant"],
            ranking.map((i, place) => [
              `${place + 1}`,
              variants[i].score!.toPrecision(4),
              variants[i].gapMm.toFixed(2),
              numbered[i].title,
            ]),
          )}`,
        ]
      : []),
  ].join("");
}

function notesRow(
  notes: Compared["notes"],
  cell: (note: NonNullable<Compared["notes"]>[number]) => string | undefined,
): (string | null)[] {
  const row: (string | null)[] = [];
  for (const note of notes ?? []) row[note.n - 1] = cell(note) ?? null;
  return row;
}
