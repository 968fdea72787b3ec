/** What is typed for the printed sheet: its head, which form and paper, and every paragraph that is not the proposal any more. */
import {
  CLASSROOM_CHARTS,
  type ClassroomChart,
  PARAGRAPHS,
  type Paragraph,
} from "../../../study/report/sheetParagraphs.ts";
import { isRecord, textsLike } from "./typed.ts";

export const HEADS = ["title", "date", "workshop", "technician", "player", "mouthpiece"] as const;
export type Head = (typeof HEADS)[number];

export const FORMS = ["workshop", "classroom"] as const;
export type SheetForm = (typeof FORMS)[number];
export const PAPERS = ["A4", "Letter"] as const;
export type Paper = (typeof PAPERS)[number];

export interface SheetNotes {
  readonly form: SheetForm;
  readonly paper: Paper;
  /** The classroom's sheet lies on its side. */
  readonly isLandscape: boolean;
  /** What the classroom's sheet draws. */
  readonly chart: ClassroomChart;
  readonly heads: Readonly<Record<Head, string>>;
  /** Templates in place of the proposals; an empty one leaves its paragraph out. */
  readonly words: Readonly<Partial<Record<Paragraph, string>>>;
}

/** No paragraph that fits a page is longer. */
const LONGEST_WORDS = 5000;

export const NO_SHEET: SheetNotes = {
  form: "workshop",
  paper: "A4",
  isLandscape: true,
  chart: "height",
  heads: { title: "", date: "", workshop: "", technician: "", player: "", mouthpiece: "" },
  words: {},
};

export function readSheetNotes(json: unknown): SheetNotes {
  if (!isRecord(json)) return NO_SHEET;
  const words = isRecord(json.words) ? json.words : {};
  return {
    form: FORMS.find((form) => form === json.form) ?? NO_SHEET.form,
    paper: PAPERS.find((paper) => paper === json.paper) ?? NO_SHEET.paper,
    isLandscape: json.isLandscape !== false,
    chart: CLASSROOM_CHARTS.find((chart) => chart === json.chart) ?? NO_SHEET.chart,
    heads: textsLike(NO_SHEET.heads, json.heads),
    words: Object.fromEntries(
      PARAGRAPHS.flatMap((name) => {
        const text = words[name];
        return typeof text === "string" ? [[name, text.slice(0, LONGEST_WORDS)]] : [];
      }),
    ),
  };
}

/** Who works here and on which paper stays; the job and its words belong to the old instrument. */
export const sheetNotesForAnother = ({ heads, ...notes }: SheetNotes): SheetNotes => ({
  ...notes,
  heads: { ...NO_SHEET.heads, workshop: heads.workshop, technician: heads.technician },
  words: {},
});

/** A paragraph written anew; null brings the proposal back. */
export function withWords(notes: SheetNotes, name: Paragraph, text: string | null): SheetNotes {
  const { [name]: _old, ...others } = notes.words;
  return { ...notes, words: text === null ? others : { ...others, [name]: text } };
}
