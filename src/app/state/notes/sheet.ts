/** What is typed for the printed sheet: its head, which form and paper, and every paragraph that is not the proposal any more. */
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import {
  CLASSROOM_CHARTS,
  CLASSROOM_SENTENCES,
  PARAGRAPHS,
  type Paragraph,
} from "../../../study/report/sheetParagraphs.ts";
import { words } from "../../form/field.ts";
import { flag, type KeptBy, kept, oneOf, record, text } from "../../form/kept.ts";

export const HEAD_FIELDS = {
  title: words("Title", { hint: "empty: the job’s, else the instrument’s name" }),
  date: words("Date", { hint: "as you write it" }),
  workshop: words("Workshop"),
  technician: words("Technician"),
  instrument: words("Instrument", { hint: "the player’s own; empty: the setup’s name" }),
  player: words("Player", { hint: "a name or an alias" }),
  mouthpiece: words("Mouthpiece", { hint: "what is engraved on it" }),
};
export type Head = keyof typeof HEAD_FIELDS;
export const HEADS = Object.keys(HEAD_FIELDS) as Head[];

export const FORMS = ["workshop", "classroom"] as const;
export type SheetForm = (typeof FORMS)[number];
export const PAPERS = ["A4", "Letter"] as const;
export type Paper = (typeof PAPERS)[number];

/** No paragraph that fits a page is longer. */
const LONGEST_WORDS = 5000;

/** A class's sheet tells of the gap looked at, which an earlier version called the one recommended. */
const asNowNamed = (name: Paragraph, text: string): string =>
  (CLASSROOM_SENTENCES as readonly Paragraph[]).includes(name)
    ? text.replaceAll("{recommended}", "{told}").replaceAll("{recommendedOther}", "{toldOther}")
    : text;

const whole = record({
  form: oneOf(FORMS, "workshop"),
  paper: oneOf(PAPERS, "A4"),
  /** The classroom's sheet lies on its side. */
  isLandscape: flag(true),
  /** Id of the blind trial it reports; empty: the one finished last. */
  trial: text(),
  /** What the classroom's sheet draws. */
  chart: oneOf(CLASSROOM_CHARTS, "height"),
  heads: record(HEAD_FIELDS),
  /** Templates in place of the proposals; an empty one leaves its paragraph out. */
  words: kept<Readonly<Partial<Record<Paragraph, string>>>>({}, (json) =>
    Object.fromEntries(
      PARAGRAPHS.flatMap((name) => {
        const text = isRecord(json) ? json[name] : undefined;
        return typeof text === "string" ? [[name, asNowNamed(name, text.slice(0, LONGEST_WORDS))]] : [];
      }),
    ),
  ),
});
/** No length is typed here: the same in any unit. */
export const sheetForm = { ...whole, shownIn: (written: KeptBy<typeof whole>) => written };
export type SheetNotes = KeptBy<typeof whole>;

/** Who works here and on which paper stays; the job and its words belong to the old instrument. */
export const sheetNotesForAnother = ({ heads, ...notes }: SheetNotes): SheetNotes => ({
  ...notes,
  heads: { ...sheetForm.empty.heads, workshop: heads.workshop, technician: heads.technician },
  trial: "",
  words: {},
});

/** A paragraph written anew; null brings the proposal back. */
export function withWords(notes: SheetNotes, name: Paragraph, text: string | null): SheetNotes {
  const { [name]: _old, ...others } = notes.words;
  return { ...notes, words: text === null ? others : { ...others, [name]: text } };
}
