/** The back of a report, for the technician and for whoever checks: tables, charts, where the numbers come from, cautions, method. */

import { html, nothing, type TemplateResult } from "lit";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { heightChart } from "../../../charts/plots/gap/heightChart.ts";
import { verdictBar } from "../../../charts/plots/verdictBar.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { CLAIMS, type Claim, claimEvidence, recordFingerprint } from "../../../study/report/sheetRecord.ts";
import { sheetResonances } from "../../../study/report/sheetResonances.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { TOLD } from "../../../words/report/sheetFigures.ts";
import { scatterWords, shiftsInARow, sweptHeadline } from "../../../words/swept/sweptWords.ts";
import { RULE } from "../../../words/verdicts/rules.ts";
import { computedOn, titleOf } from "./frontPage.ts";
import type { Layout } from "./layout.ts";
import type { PaperContent } from "./paperContent.ts";
import { HEADINGS, paragraph } from "./paperWords.ts";

/** Heights of the drawings where there is room, and where there is less of it, px. */
const HEIGHTS = [
  { chart: 240, bar: 56 },
  { chart: 225, bar: 56 },
  { chart: 210, bar: 54 },
  { chart: 200, bar: 52 },
  { chart: 185, bar: 48 },
  { chart: 172, bar: 46 },
] as const;
/** Taller than this the chart shows no more, px. */
const TALLEST_CHART = 320;
/** Columns of the verdicts, and what lies between them, px. */
const BETWEEN = 20;
/** Beside the chart, px. */
const TABLE_WIDTH = 262;

export function backPage(content: PaperContent, { widthPx, density, sparePx }: Layout): TemplateResult {
  const { record, words } = content;
  const { unit } = record;
  const heights = HEIGHTS[density];
  const bar: Frame = {
    width: Math.floor((widthPx - 2 * BETWEEN) / 3),
    height: heights.bar,
    unit,
    instrument: instrumentOf(record.setup),
  };
  const chartHeight = Math.min(TALLEST_CHART, heights.chart + sparePx);
  return html`
    ${runningHead(content)}
    <div class="model">
      ${resonanceTable(content)}
      <figure>${chart(content, widthPx - TABLE_WIDTH - BETWEEN, chartHeight)}</figure>
    </div>
    ${paragraph("found", words.found)}
    <div class="verdicts">${CLAIMS.map((claim) => verdict(content, claim, bar))}</div>
    ${swept(content)} ${paragraph("origins", words.origins)} ${paragraph("cautions", words.cautions)}
    <footer>
      ${paragraph("method", words.method)}
      <p class="record">
        <span>Annulus ${record.version}</span><span>record ${recordFingerprint(record)}</span>
      </p>
    </footer>
  `;
}

/** Whose it is, also where the sheet is copied from this side alone. */
function runningHead(content: PaperContent): TemplateResult {
  const { names, date } = content;
  const whose = [names.player, names.instrument, names.mouthpiece, computedOn(content), date].filter(
    (part) => part && part !== titleOf(content),
  );
  return html`
    <header class="running">
      <p><b>${titleOf(content)}</b>${whose.length > 0 ? ` · ${whose.join(" · ")}` : nothing}</p>
      <p>For the technician, and for whoever checks</p>
    </header>
  `;
}

function resonanceTable({ record }: PaperContent): TemplateResult {
  const resonances = sheetResonances(record);
  const instrument = instrumentOf(record.setup);
  const number = (value: number | null, digits: number) => (value === null ? "–" : signed(value, digits));
  return html`
    <table data-testid="paper-resonances">
      <caption>
        ${formatLength(record.referenceGapMm, record.unit)} to ${formatLength(record.told.gapMm, record.unit)} (${TOLD[record.told.kind]})
      </caption>
      <thead>
        <tr>
          <th scope="col">note</th>
          <th scope="col">shift, cents</th>
          <th scope="col">retuned, cents</th>
          <th scope="col">height, dB</th>
        </tr>
      </thead>
      <tbody>
        ${
          resonances?.map(
            ({ n, shiftCents, retunedCents, heightDb }) => html`
              <tr>
                <th scope="row">${noteText(n, instrument)}</th>
                <td>${number(shiftCents, 1)}</td>
                <td>${number(retunedCents, 1)}</td>
                <td>${number(heightDb, 2)}</td>
              </tr>
            `,
          ) ?? nothing
        }
      </tbody>
    </table>
  `;
}

/** What sweeps of the instrument found; nothing where there are none. */
function swept({ record }: PaperContent): TemplateResult | typeof nothing {
  if (!record.swept) return nothing;
  const { change, beside } = record.swept;
  const shifts = shiftsInARow(beside, instrumentOf(record.setup));
  return html`<p data-testid="paper-swept">
    <b>This instrument, by sweeps before and after.</b> ${sweptHeadline(change, beside, record.unit)}${shifts ? ` Shifts in cents: ${shifts}.` : ""} ${scatterWords(change)}
  </p>`;
}

function chart({ record, sweep, domainMm }: PaperContent, width: number, height: number): unknown {
  if (!sweep) return nothing;
  const { told, setup, unit } = record;
  const chosenGapMm = told.gapMm;
  return heightChart(
    { sweep, chosenGapMm, thresholds: setup.thresholds, domainMm, isPrinted: true },
    { width, height, unit, instrument: instrumentOf(setup) },
  ).svg;
}

function verdict({ record, words }: PaperContent, claim: Claim, frame: Frame): TemplateResult {
  const evidence = claimEvidence(record, claim);
  const [test] = evidence?.main?.tests ?? [];
  const { lines } = words[claim];
  if (lines.length === 0) return html`<div></div>`;
  return html`
    <div class="verdict">
      <p class="rule">“${(evidence && RULE[evidence.verdict.claim]) ?? HEADINGS[claim]}”</p>
      ${test ? html`<figure>${verdictBar(test, frame).svg}</figure>` : nothing}
      ${paragraph(claim, words[claim])}
    </div>
  `;
}
