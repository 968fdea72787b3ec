/**
 * What a PDF's text is set in. Every reader has the standard fonts, which know Western letters alone; a line with any other
 * (Łukasz, Ζωή, Дарья) is set in the page's own typeface, whose letters then travel in the file. A letter that this typeface
 * has not either stands as a question mark, and is told.
 */
import { type PDFDocument, type PDFFont, StandardFonts } from "@cantoo/pdf-lib";

/** The files the typeface comes in, letter by letter the nearest first. */
const SUBSETS = [
  "latin",
  "latin-ext",
  "vietnamese",
  "greek",
  "greek-ext",
  "cyrillic",
  "cyrillic-ext",
] as const;
const WEIGHT = { plain: 400, bold: 700 } as const;
export type TypefaceFile = `source-sans-3-${(typeof SUBSETS)[number]}-${400 | 700}-normal.woff`;

/** Where a file of the typeface comes from: a page fetches it, a terminal reads it. */
export type FetchTypeface = (name: TypefaceFile) => Promise<Uint8Array>;

/** Letters that one font has, with their place in the line. */
export interface Run {
  readonly font: PDFFont;
  readonly text: string;
}

/** One weight of a PDF's text. */
export class PdfType {
  readonly #file: PDFDocument;
  readonly #weight: 400 | 700;
  readonly #standard: PDFFont;
  readonly #standardLetters: ReadonlySet<number>;
  /** Of the page's typeface, as far as they were needed. */
  readonly #own: { readonly font: PDFFont; readonly letters: ReadonlySet<number> }[] = [];
  /** Letters that no font here has. */
  readonly unknown = new Set<string>();

  private constructor(file: PDFDocument, weight: 400 | 700, standard: PDFFont) {
    this.#file = file;
    this.#weight = weight;
    this.#standard = standard;
    this.#standardLetters = new Set(standard.getCharacterSet());
  }

  /** With the letters that these lines need. */
  static async for(
    lines: readonly string[],
    file: PDFDocument,
    weight: keyof typeof WEIGHT,
    fetchTypeface: FetchTypeface,
  ): Promise<PdfType> {
    const name = weight === "bold" ? StandardFonts.HelveticaBold : StandardFonts.Helvetica;
    const type = new PdfType(file, WEIGHT[weight], await file.embedFont(name));
    const letters = lines.filter((line) => !type.#isStandard(line)).flatMap((line) => lettersOf(line));
    if (letters.length > 0) await type.#fetch(new Set(letters), fetchTypeface);
    return type;
  }

  /** A line as what each font has of it. */
  runs(line: string): readonly Run[] {
    if (this.#isStandard(line)) return [{ font: this.#standard, text: hyphenated(line) }];
    const runs: { font: PDFFont; text: string }[] = [];
    for (const letter of lettersOf(line)) {
      const own = this.#own.find(({ letters }) => letters.has(letter.codePointAt(0)!));
      const font = own?.font ?? this.#standard;
      const last = runs.at(-1);
      const text = own ? letter : "?";
      if (last?.font === font) last.text += text;
      else runs.push({ font, text });
    }
    return runs;
  }

  #isStandard(line: string): boolean {
    return lettersOf(hyphenated(line)).every((letter) => this.#standardLetters.has(letter.codePointAt(0)!));
  }

  async #fetch(wanted: Set<string>, fetchTypeface: FetchTypeface): Promise<void> {
    this.#file.registerFontkit((await import("@cantoo/fontkit")).default);
    for (const subset of SUBSETS) {
      if (wanted.size === 0) return;
      const bytes = await fetchTypeface(`source-sans-3-${subset}-${this.#weight}-normal.woff`);
      const font = await this.#file.embedFont(bytes, { subset: true });
      const letters = new Set(font.getCharacterSet());
      const found = [...wanted].filter((letter) => letters.has(letter.codePointAt(0)!));
      if (found.length === 0) continue;
      this.#own.push({ font, letters });
      for (const letter of found) wanted.delete(letter);
    }
    for (const letter of wanted) this.unknown.add(letter);
  }
}

/** A letter and its mark are one where there is such a letter. */
const lettersOf = (line: string): readonly string[] => Array.from(line.normalize("NFC"));

/** The standard fonts have no minus sign. */
const hyphenated = (line: string): string => line.normalize("NFC").replaceAll("\u2212", "-");
