/** Everything a technician types for the sheet: who and when, then paragraph by paragraph. */
import { html, type TemplateResult } from "lit";
import {
  CLASSROOM_SENTENCES,
  type Paragraph,
  WORKSHOP_PARAGRAPHS,
} from "../../../study/report/sheetParagraphs.ts";
import type { FigureGroup } from "../../../words/report/sheetFigure.ts";
import type { WriteEvent, Written } from "../../form/entry.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { HEAD_FIELDS, HEADS, type Head } from "../../state/notes/sheet.ts";
import type { PaperContent } from "./paperContent.ts";
import { HEADINGS } from "./paperWords.ts";
import "./wordsField.ts";

export interface WordsForm {
  readonly form: NotesForm<"sheet">;
  readonly content: PaperContent;
  /** The paragraph under a hand: what is wrong with it is told when it is finished. */
  readonly typing: Paragraph | null;
  readonly write: (name: Paragraph, written: Written) => void;
  readonly restore: (name: Paragraph) => void;
}

/** Which figures a paragraph is likely to speak of. */
const GROUPS: Readonly<Record<Paragraph, readonly FigureGroup[]>> = {
  measured: ["gap"],
  answer: ["verdicts", "gap", "resonances"],
  origins: ["gap"],
  found: ["gap", "resonances"],
  slots: ["verdicts"],
  resistance: ["verdicts"],
  noGap: ["verdicts"],
  trial: ["trial", "gap"],
  recommendation: ["gap", "work", "trial"],
  reverse: ["work", "gap"],
  cautions: ["work"],
  method: ["method"],
  first: ["gap", "resonances", "verdicts"],
  second: ["gap", "resonances", "verdicts"],
  third: ["gap", "resonances", "verdicts"],
};

export function wordsForm(form: WordsForm): TemplateResult {
  const isWorkshop = form.content.notes.form === "workshop";
  const heads = isWorkshop ? HEADS : HEADS.filter((name) => CLASS_HEADS.has(name));
  return html`
    <div class="heads">${heads.map((name) => head(form, name))}</div>
    <p class="how">
      Edit the words; figures in {braces} update themselves: {gap} is your gap, whatever it becomes. A new line is a new point.
      Empty a paragraph to leave it out.
    </p>
    ${(isWorkshop ? WORKSHOP_PARAGRAPHS : CLASSROOM_SENTENCES).map((name) => words(form, name))}
  `;
}

const CLASS_HEADS: ReadonlySet<Head> = new Set(["title", "date", "workshop"]);

const head = ({ form, content: { otherwise } }: WordsForm, name: Head): TemplateResult =>
  form.entry(HEAD_FIELDS[name], ["heads", name], "", {
    testId: `sheet-${name}`,
    ...(otherwise[name] && { hint: `empty: ${otherwise[name]}` }),
  });

function words(form: WordsForm, name: Paragraph): TemplateResult {
  const { content, typing, write, restore } = form;
  const figures = [...content.figures.values()].filter(({ group }) => GROUPS[name].includes(group));
  return html`
    <annulus-words
      data-testid="words-${name}"
      data-paragraph=${name}
      label=${HEADINGS[name]}
      .text=${content.templates[name]}
      .problem=${typing === name ? "" : content.words[name].problem}
      .isProposal=${content.notes.words[name] === undefined}
      .figures=${figures}
      @write=${({ detail }: WriteEvent) => write(name, detail)}
      @restore=${() => restore(name)}
    ></annulus-words>
  `;
}
