/**
 * What stands around every workshop drawing: the frame, the title block, the notes, and a length to measure on the print,
 * since a printer that fits the page to the paper spoils it.
 */
import type { LengthUnit } from "../units/length.ts";
import { LETTERS_MM, letters, line, SMALL_LETTERS_MM } from "./dimension.ts";
import { FRAME_MM, type Mark, type Point, type Sheet, textWidthMm } from "./sheet.ts";

const BLOCK_MM = [100, 42] as const;
/** From the frame's foot: nothing of the drawing reaches into it. */
export const FOOT_MM = 52;
const NOTE_LINE_MM = 3.4;

export interface FrameWords {
  readonly title: string;
  readonly of: string;
  readonly unitLine: string;
  readonly toleranceLine: string;
  readonly madeBy: string;
  readonly printCheck: string;
  readonly notes: readonly string[];
}

/** @param unit the shop's: the length to check a print by is round in it */
export function frame([width, height]: Point, words: FrameWords, unit: LengthUnit): Mark[] {
  const [left, bottom, right, top] = [FRAME_MM, FRAME_MM, width - FRAME_MM, height - FRAME_MM];
  return [
    {
      kind: "line",
      isClosed: true,
      pen: "outline",
      points: [
        [left, bottom],
        [right, bottom],
        [right, top],
        [left, top],
      ],
    },
    ...block([right, bottom], words),
    ...printCheck([right - BLOCK_MM[0] - 2, bottom], words.printCheck, unit),
    ...noteLines(words.notes, [left + 3, bottom], right - BLOCK_MM[0] - left - 10),
  ];
}

function block([right, bottom]: Point, { title, of, unitLine, toleranceLine, madeBy }: FrameWords): Mark[] {
  const [width, height] = BLOCK_MM;
  const left = right - width;
  const rows = [0, 10, 17, 24, 31, height];
  const at = (row: number): Point => [left + 2, bottom + rows[row] + 2.2];
  return [
    { kind: "line", isClosed: true, pen: "outline", points: rectangle(left, bottom, right, bottom + height) },
    ...rows.slice(1, -1).map((y) =>
      line("thin", [
        [left, bottom + y],
        [right, bottom + y],
      ]),
    ),
    letters(title, at(4), { heightMm: 3.5, isBold: true }),
    letters(shortened(of, width - 4, LETTERS_MM), at(3)),
    letters(toleranceLine, at(2), { heightMm: SMALL_LETTERS_MM }),
    letters(unitLine, at(1), { heightMm: SMALL_LETTERS_MM }),
    letters(madeBy, [left + 2, bottom + 2], { heightMm: SMALL_LETTERS_MM }),
  ];
}

const rectangle = (left: number, bottom: number, right: number, top: number): readonly Point[] => [
  [left, bottom],
  [right, bottom],
  [right, top],
  [left, top],
];

/** A length with its ends marked, right against the title block. */
function printCheck([right, bottom]: Point, words: string, unit: LengthUnit): Mark[] {
  const lengthMm = unit === "mm" ? 50 : 50.8;
  const [left, y] = [right - lengthMm, bottom + 4];
  const tick = (x: number): Mark =>
    line("thin", [
      [x, y - 1.5],
      [x, y + 1.5],
    ]);
  return [
    line("thin", [
      [left, y],
      [right, y],
    ]),
    tick(left),
    tick(right),
    letters(words, [right, y + 2.2], { anchor: "end", heightMm: SMALL_LETTERS_MM }),
  ];
}

function noteLines(notes: readonly string[], [left, bottom]: Point, widthMm: number): Mark[] {
  const lines = notes.flatMap((note, i) => folded(`${i + 1}. ${note}`, widthMm, SMALL_LETTERS_MM));
  // the last one above the length to measure
  const top = bottom + Math.max(FOOT_MM - 6, 10 + (lines.length - 1) * NOTE_LINE_MM);
  return lines.map((text, i) =>
    letters(text, [left, top - i * NOTE_LINE_MM], { heightMm: SMALL_LETTERS_MM }),
  );
}

/** Words in lines of at most this width. */
export function folded(text: string, widthMm: number, heightMm: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/u)) {
    const longer = lines.length === 0 ? word : `${lines[lines.length - 1]} ${word}`;
    if (lines.length > 0 && textWidthMm(longer, heightMm) <= widthMm) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function shortened(text: string, widthMm: number, heightMm: number): string {
  const room = Math.floor(widthMm / textWidthMm("x", heightMm));
  const letters = Array.from(text.replace(/\s+/gu, " "));
  return letters.length <= room ? letters.join("") : `${letters.slice(0, room - 1).join("")}…`;
}

export const sheetOf = (sheet: Omit<Sheet, "widthMm" | "heightMm">, [widthMm, heightMm]: Point): Sheet => ({
  ...sheet,
  widthMm,
  heightMm,
});
