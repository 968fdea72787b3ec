/** Listening to a player: what is to be played, at which gap or under which blind code, and every take that was kept. */
import { type KeptTake, readTakes } from "../../../listen/keptTake.ts";
import { TAKE_TESTS } from "../../../listen/takeQuestion.ts";
import { length } from "../../form/field.ts";
import { flag, type KeptBy, kept, keptForm, oneOf, text, wholeOrNone } from "../../form/kept.ts";

/** Of the notes that are listened to, by partial. */
export const LISTENED = { least: 1, most: 12 } as const;
const USUAL_NOTE = 4;

export const MOUNTED = length("Gap that is mounted", { leastMm: 0, mostMm: 40 });

export const listenForm = keptForm({
  test: oneOf(TAKE_TESTS, "slot"),
  note: wholeOrNone(LISTENED.least, LISTENED.most, USUAL_NOTE),
  /** The other note of slurs; null: the next one up. */
  toNote: wholeOrNone(LISTENED.least, LISTENED.most, null),
  /** Empty: your gap. */
  gap: MOUNTED,
  /** Id of the sealed trial whose turns are listened to; empty: none. */
  trial: text(),
  /** Code of the turn. */
  code: text(),
  keepsSound: flag(false),
  /** In the order in which they were kept. */
  takes: kept<readonly KeptTake[]>([], readTakes),
});
export type ListenNotes = KeptBy<typeof listenForm>;

/** The notes meant, the lower first; the other is null unless slurs are played. */
export function listenedNotes({ test, note, toNote }: ListenNotes): {
  readonly partial: number;
  readonly toPartial: number | null;
} {
  const one = note ?? USUAL_NOTE;
  if (test !== "slur") return { partial: one, toPartial: null };
  const next = one < LISTENED.most ? one + 1 : one - 1;
  const other = toNote === null || toNote === one ? next : toNote;
  return { partial: Math.min(one, other), toPartial: Math.max(one, other) };
}

export const withTake = (notes: ListenNotes, take: KeptTake): ListenNotes => ({
  ...notes,
  takes: [...notes.takes, take],
});

export const withoutTake = (notes: ListenNotes, id: string): ListenNotes => ({
  ...notes,
  takes: notes.takes.filter((take) => take.id !== id),
});
