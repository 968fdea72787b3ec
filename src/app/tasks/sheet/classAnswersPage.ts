/** The second page of the classroom's sheet, for the teacher: the pupils' questions again, with their answers. */
import { html, type TemplateResult } from "lit";
import { recordFingerprint } from "../../../study/report/sheetRecord.ts";
import { classQuestions } from "../../../words/report/classQuestions.ts";
import { filled } from "../../../words/report/sheetWords.ts";
import { titleOf } from "./frontPage.ts";
import type { PaperContent } from "./paperContent.ts";
import { pieces } from "./paperWords.ts";

export function classAnswersPage(content: PaperContent): TemplateResult {
  const { notes, figures, record } = content;
  return html`
    <header class="class">
      <h1>${titleOf(content)}</h1>
      <p>Answers, for the teacher</p>
    </header>
    <ol class="answers">
      ${classQuestions(notes.chart).map(
        ({ question, answer }) => html`
          <li>
            <p><b>${question}</b></p>
            ${filled(answer, figures).lines.map((line) => html`<p>${pieces(line)}</p>`)}
          </li>
        `,
      )}
    </ol>
    <footer>
      <p class="record"><span>Annulus ${record.version}</span><span>record ${recordFingerprint(record)}</span></p>
    </footer>
  `;
}
