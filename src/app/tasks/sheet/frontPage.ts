/** The front of a report, which a player reads in a minute: the gap, what was tried and found, what is recommended and whether it can be undone. */

import { html, nothing, type TemplateResult } from "lit";
import { cutaway } from "../../../charts/drawings/cutaway.ts";
import { recordFingerprint } from "../../../study/report/sheetRecord.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { contradictionWords } from "../../../words/bench/contradiction.ts";
import { computedOnWords } from "../../../words/jobNames.ts";
import { TOLD } from "../../../words/report/sheetFigures.ts";
import type { Layout } from "./layout.ts";
import type { PaperContent } from "./paperContent.ts";
import { paragraph } from "./paperWords.ts";

/** Heights of the drawing where there is room, and where there is less of it, px. */
const HEIGHTS = [250, 240, 220, 200, 180, 150] as const;
/** Taller than this the section shows no more, px. */
const TALLEST_CUTAWAY = 300;

export function frontPage(content: PaperContent, { widthPx, density, sparePx }: Layout): TemplateResult {
  const { record, words } = content;
  const { unit } = record;
  const drawing = cutaway(
    { setup: record.setup, chosenGapMm: record.told.gapMm, referenceGapMm: record.referenceGapMm },
    { width: widthPx, height: Math.min(TALLEST_CUTAWAY, HEIGHTS[density] + sparePx), unit },
  );
  return html`
    ${head(content)}
    ${gaps(content)}
    ${record.doubts.map((doubt) => html`<p class="doubt" data-testid="paper-doubt">${contradictionWords(doubt, unit)}</p>`)}
    <figure class="cutaway">${drawing.svg}</figure>
    ${paragraph("measured", words.measured)} ${paragraph("trial", words.trial)} ${paragraph("answer", words.answer)}
    <div class="advice">
      ${paragraph("recommendation", words.recommendation)} ${paragraph("reverse", words.reverse)}
    </div>
    <footer>
      <p class="record">
        <span>Tables, charts, cautions and method: on the back</span>
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
    <dl class="gaps">
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
