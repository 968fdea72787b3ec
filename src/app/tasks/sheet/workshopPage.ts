/** The technician's sheet: what was measured and modelled, what is recommended, on one upright page. */

import { html, nothing, type TemplateResult } from "lit";
import { cutaway } from "../../../charts/drawings/cutaway.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { heightChart } from "../../../charts/plots/gap/heightChart.ts";
import { verdictBar } from "../../../charts/plots/verdictBar.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { CLAIMS, type Claim, claimEvidence, recordFingerprint } from "../../../study/report/sheetRecord.ts";
import { sheetResonances } from "../../../study/report/sheetResonances.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { contradictionWords } from "../../../words/bench/contradiction.ts";
import { noteText } from "../../../words/instruments.ts";
import { computedOnWords } from "../../../words/jobNames.ts";
import { signed } from "../../../words/numbers.ts";
import { TOLD } from "../../../words/report/sheetFigures.ts";
import { RULE } from "../../../words/verdicts/rules.ts";
import type { PaperContent } from "./paperContent.ts";
import { HEADINGS, paragraph } from "./paperWords.ts";

/** Heights of the drawings where there is room, and where there is less of it, px. */
const HEIGHTS = [
  { cutaway: 250, chart: 208, bar: 56 },
  { cutaway: 228, chart: 205, bar: 56 },
  { cutaway: 206, chart: 198, bar: 54 },
  { cutaway: 186, chart: 192, bar: 52 },
  { cutaway: 168, chart: 178, bar: 48 },
  { cutaway: 150, chart: 172, bar: 46 },
] as const;
/** Taller than this the section shows no more, px. */
const TALLEST_CUTAWAY = 270;
/** Columns of the verdicts, and what lies between them, px. */
const BETWEEN = 20;
/** Beside the table, px. */
const TABLE_WIDTH = 232;

export const DENSITIES = HEIGHTS.length;

/** The room there is, and how it is used. */
export interface Layout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly density: number;
  /** Left over at this density, for the drawing that gains most. */
  readonly sparePx: number;
}

export function workshopPage(content: PaperContent, { widthPx, density, sparePx }: Layout): TemplateResult {
  const { record, words } = content;
  const { unit } = record;
  const heights = HEIGHTS[density];
  const drawing = cutaway(
    { setup: record.setup, chosenGapMm: record.told.gapMm, referenceGapMm: record.referenceGapMm },
    { width: widthPx, height: Math.min(TALLEST_CUTAWAY, heights.cutaway + sparePx), unit },
  );
  return html`
    ${head(content)}
    <div class="gaps">${gaps(content)} ${paragraph("measured", words.measured)}</div>
    ${record.doubts.map((doubt) => html`<p class="doubt" data-testid="paper-doubt">${contradictionWords(doubt, unit)}</p>`)}
    <figure class="cutaway">${drawing.svg}</figure>
    <div class="model">
      ${resonanceTable(content)}
      <figure>${chart(content, widthPx - TABLE_WIDTH - BETWEEN, heights.chart)}</figure>
    </div>
    ${paragraph("found", words.found)}
    <div class="verdicts">
      ${CLAIMS.map((claim) => verdict(content, claim, { width: Math.floor((widthPx - 2 * BETWEEN) / 3), height: heights.bar, unit, instrument: instrumentOf(record.setup) }))}
    </div>
    <div class="advice">
      ${paragraph("recommendation", words.recommendation)} ${paragraph("reverse", words.reverse)}
    </div>
    ${paragraph("trial", words.trial)} ${paragraph("cautions", words.cautions)}
    <footer>
      ${paragraph("method", words.method)}
      <p class="record">
        <span>Annulus ${record.version}</span><span>record ${recordFingerprint(record)}</span>
      </p>
    </footer>
  `;
}

export const titleOf = ({ names }: PaperContent): string => names.job || names.instrument;

/** What stands in for the player's instrument; empty where the setup is that instrument's. */
export const computedOn = ({ names }: PaperContent): string =>
  names.computedOn && computedOnWords(names.computedOn);

/** What nobody typed is a line to write on. */
function head(content: PaperContent): TemplateResult {
  const { names, date } = content;
  const parts = [names.instrument, names.mouthpiece, computedOn(content)].filter(
    (part) => part && part !== titleOf(content),
  );
  const lines = [
    ["Date", date],
    ["Workshop", names.workshop],
    ["Technician", names.technician],
    ["Player", names.player],
  ];
  return html`
    <header>
      <div>
        <h1>${titleOf(content)}</h1>
        ${parts.length > 0 ? html`<p>${parts.join(" · ")}</p>` : nothing}
      </div>
      <dl>
        ${lines.map(
          ([label, text]) => html`<dt>${label}</dt><dd class=${text ? "" : "write"}>${text || nothing}</dd>`,
        )}
      </dl>
    </header>
  `;
}

/** The gap as it is, and as it is to be: the largest things on the page. */
function gaps({ record }: PaperContent): TemplateResult {
  const { unit, present, recommendation } = record;
  const { gapMm, expandedMm, readings } = present;
  const other: LengthUnit = unit === "mm" ? "in" : "mm";
  const toMm = recommendation.kind === "none" ? null : recommendation.gapMm;
  const changeMm = (toMm ?? gapMm) - gapMm;
  const changeText = `${roundedLength(Math.abs(changeMm), expandedMm, unit)} ${changeMm < 0 ? "less" : "more"}`;
  return html`
    <dl>
      <div>
        <dt>${readings ? "Gap measured" : "Gap by the file"}${expandedMm === undefined ? ", ± not measured" : ", ± at 95 %"}</dt>
        <dd data-testid="paper-gap">${plusMinus(gapMm, expandedMm, unit)}</dd>
        <dd class="other">${plusMinus(gapMm, expandedMm, other)}</dd>
      </div>
      <div class="recommended">
        <dt>${toMm === null ? "Recommendation" : `Gap recommended, ${TOLD[record.told.kind]}`}</dt>
        <dd data-testid="paper-recommended">${toMm === null ? "No change" : roundedLength(toMm, undefined, unit)}</dd>
        <dd class="other">${toMm === null ? nothing : `${roundedLength(toMm, undefined, other)} · ${changeText}`}</dd>
      </div>
    </dl>
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
