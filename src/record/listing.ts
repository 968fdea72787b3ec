/** Which jobs a list shows, in which order: by status, by what is searched for as it is typed, sorted. */
import type { JobHead, JobStatus } from "./job.ts";

export type StatusFilter = JobStatus | "all";
export type SortKey = "changed" | "title" | "player";

export interface Wanted {
  readonly status: StatusFilter;
  /** Each word of it must begin a word of the job. */
  readonly search: string;
  readonly sort: SortKey;
}

const collator = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

/** Those wanted of all, in the order wanted: newest first, or by name with the nameless last. */
export function listed<Row extends JobHead>(rows: readonly Row[], { status, search, sort }: Wanted): Row[] {
  const begun = words(search).map((word) => ` ${word}`);
  const wanted = rows.filter((row) => {
    if (status !== "all" && row.status !== status) return false;
    if (begun.length === 0) return true;
    const own = searchText(row);
    return begun.every((word) => own.includes(word));
  });
  const newest = (a: Row, b: Row) => (a.changed < b.changed ? 1 : a.changed > b.changed ? -1 : 0);
  if (sort === "changed") return wanted.sort(newest);
  const named = (a: Row, b: Row) =>
    Number(a[sort] === "") - Number(b[sort] === "") || collator.compare(a[sort], b[sort]) || newest(a, b);
  return wanted.sort(named);
}

const texts = new WeakMap<JobHead, string>();

/** Made once a row: a search goes over all of them at every key. */
function searchText(row: JobHead): string {
  let text = texts.get(row);
  if (text === undefined) {
    text = ` ${words(`${row.title} ${row.player} ${row.instrument} ${row.mouthpiece}`).join(" ")}`;
    texts.set(row, text);
  }
  return text;
}

/** Letters that are written with a stroke or as two, which no decomposition folds. */
const FOLDED: Readonly<Record<string, string>> = {
  ø: "o",
  đ: "d",
  ł: "l",
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ı: "i",
};

/** Words in small letters without accents: "Jürgen, 3C" is jurgen and 3c. */
export const words = (text: string): string[] =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[øđłßæœı]/g, (letter) => FOLDED[letter])
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
