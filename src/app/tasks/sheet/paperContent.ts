/** What stands on the paper, put together: the record, its figures, the words filled with them. */

import { shownGaps } from "../../../setup/gapLimits.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import { PARAGRAPHS, type Paragraph } from "../../../study/report/sheetParagraphs.ts";
import type { SheetRecord } from "../../../study/report/sheetRecord.ts";
import type { Figures } from "../../../words/report/sheetFigure.ts";
import { sheetFigures } from "../../../words/report/sheetFigures.ts";
import { proposals } from "../../../words/report/sheetProposals.ts";
import { type Filled, filled } from "../../../words/report/sheetWords.ts";
import type { Head, SheetNotes } from "../../state/notes/sheet.ts";
import type { JobNames } from "../../state/record/jobNames.ts";

export interface PaperContent {
  readonly notes: SheetNotes;
  readonly names: JobNames;
  /** What its head says where nothing is typed for it. */
  readonly otherwise: JobHeads;
  readonly date: string;
  readonly record: SheetRecord;
  readonly sweep: GapSweep | null;
  /** Gaps of a chart's axis, mm. */
  readonly domainMm: readonly [low: number, high: number];
  readonly figures: Figures;
  /** As written: the technician's templates, else the proposals. */
  readonly templates: Readonly<Record<Paragraph, string>>;
  readonly words: Readonly<Record<Paragraph, Filled>>;
}

export type JobHeads = Readonly<Partial<Record<Head, string>>>;

export function paperContent(
  record: SheetRecord,
  sweep: GapSweep | null,
  notes: SheetNotes,
  { names, otherwise }: Pick<PaperContent, "names" | "otherwise">,
): PaperContent {
  const figures = sheetFigures(record);
  const templates = { ...proposals(record, notes.chart), ...notes.words };
  const { leastMm, mostMm } = shownGaps(record.setup);
  return {
    notes,
    names,
    otherwise,
    date: notes.heads.date.trim(),
    record,
    sweep,
    domainMm: [leastMm, Math.max(mostMm, record.told.gapMm, record.referenceGapMm)],
    figures,
    templates,
    words: Object.fromEntries(PARAGRAPHS.map((name) => [name, filled(templates[name], figures)])) as Record<
      Paragraph,
      Filled
    >,
  };
}
