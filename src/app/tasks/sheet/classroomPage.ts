/** The classroom's sheet: one chart and three sentences, to be read from the back row, and three questions for the pupils. */

import { html, nothing, type TemplateResult } from "lit";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { heightChart } from "../../../charts/plots/gap/heightChart.ts";
import { spacingChart } from "../../../charts/plots/gap/spacingChart.ts";
import { impedanceChart } from "../../../charts/plots/impedanceChart.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { CLASSROOM_SENTENCES } from "../../../study/report/sheetParagraphs.ts";
import { recordFingerprint } from "../../../study/report/sheetRecord.ts";
import { contradictionWords } from "../../../words/bench/contradiction.ts";
import { classQuestions } from "../../../words/report/classQuestions.ts";
import { sheetStandIn } from "../../../words/report/sheetFigures.ts";
import { computedOn, titleOf } from "./frontPage.ts";
import type { Layout } from "./layout.ts";
import type { PaperContent } from "./paperContent.ts";
import { pieces } from "./paperWords.ts";

/** Drawn as a smaller chart and enlarged, type and all. */
const ENLARGED = 1.6;
/** Share of the page that the chart takes where there is room, and where there is less of it. */
const SHARES = [0.62, 0.58, 0.54, 0.5, 0.46, 0.42] as const;

export function classroomPage(
  content: PaperContent,
  { widthPx, heightPx, density, sparePx }: Layout,
): TemplateResult {
  const { names, date, record, words } = content;
  const where = [names.instrument, computedOn(content), names.workshop, date].filter(
    (part) => part && part !== titleOf(content),
  );
  const drawing = chart(content, {
    width: widthPx / ENLARGED,
    height: (SHARES[density] * heightPx + sparePx) / ENLARGED,
    unit: record.unit,
    instrument: instrumentOf(record.setup),
  });
  return html`
    <header class="class">
      <h1>${titleOf(content)}</h1>
      ${where.length > 0 ? html`<p>${where.join(" · ")}</p>` : nothing}
    </header>
    ${saidWithIt(content).map((words) => html`<p class="doubt" data-testid="paper-doubt">${words}</p>`)}
    <figure class="class">${drawing ?? nothing}</figure>
    <ol>
      ${CLASSROOM_SENTENCES.filter((name) => words[name].lines.length > 0).map(
        (name) =>
          html`<li data-paragraph=${name}>${words[name].lines.map((line) => html`<p>${pieces(line)}</p>`)}</li>`,
      )}
    </ol>
    <section class="questions">
      <h2>Questions</h2>
      <ol>${classQuestions(content.notes.chart).map(({ question }) => html`<li>${question}</li>`)}</ol>
    </section>
    <footer>
      <p class="record">
        <span>Annulus ${record.version}</span><span>record ${recordFingerprint(record)}</span>
        <span>rules of thumb: common practice, no source</span>
      </p>
    </footer>
  `;
}

/** What contradicts the gap, and what of the instrument nobody measured: nothing is handed to a class without it. */
function saidWithIt({ record }: PaperContent): readonly string[] {
  const standIn = sheetStandIn(record);
  return [
    ...record.doubts.map((doubt) => contradictionWords(doubt, record.unit)),
    ...(standIn ? [`${standIn}.`] : []),
  ];
}

function chart({ notes, record, sweep, domainMm }: PaperContent, frame: Frame): SVGSVGElement | null {
  const { explored, setup, told } = record;
  const chosenGapMm = told.gapMm;
  if (notes.chart === "curves") return explored && impedanceChart(explored, frame).svg;
  if (!sweep) return null;
  const draw = notes.chart === "height" ? heightChart : spacingChart;
  return draw({ sweep, chosenGapMm, thresholds: setup.thresholds, domainMm, isPrinted: true }, frame).svg;
}
