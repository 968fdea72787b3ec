/** What does not go together in the record, each with the way to put it right. */
import { html, nothing, type TemplateResult } from "lit";
import { gapMm } from "../../../setup/setup.ts";
import { isLeftAsItIs, SAME_MM } from "../../../study/report/sheetRecord.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { roundedLength } from "../../../units/uncertainLength.ts";
import { icon } from "../../shell/look/icon.ts";
import type { SheetData } from "./record.ts";

export interface NoticeActions {
  /** Compares with this gap from now on. */
  readonly compareWith: (gapMm: number) => void;
  readonly recommend: (gapMm: number) => void;
}

export function notices(data: SheetData, { compareWith, recommend }: NoticeActions): unknown {
  const { record, plannedMm } = data;
  const { unit, setup, present, recommendedGapMm, referenceGapMm } = record;
  const length = (mm: number) => formatLength(mm, unit);
  const presentText = roundedLength(present.gapMm, present.expandedMm, unit);
  const isInRecord = Math.abs(present.gapMm - gapMm(setup)) < SAME_MM;
  return [
    present.readings && !isInRecord
      ? notice(
          `The gap measured is ${presentText}, the instrument's record has ${length(gapMm(setup))}, and the model computes with the record.`,
          html`<a href="#measure">Use the measured one</a>`,
        )
      : nothing,
    isInRecord && Math.abs(referenceGapMm - present.gapMm) >= SAME_MM
      ? notice(
          `The model compares with a gap of ${length(referenceGapMm)}, not with the present one, ${presentText}.`,
          html`<button type="button" data-testid="compare-present" @click=${() => compareWith(gapMm(setup))}>Compare with the present gap</button>`,
        )
      : nothing,
    plannedMm !== null
      ? notice(
          `Cut plans a gap of ${length(plannedMm)}, this sheet recommends ${length(recommendedGapMm)}, chosen in Explore.`,
          html`<button type="button" data-testid="recommend-planned" @click=${() => recommend(plannedMm)}>Recommend the gap planned</button>`,
        )
      : !isLeftAsItIs(record) && !record.way
        ? notice("How the gap is to be changed is not planned.", html`<a href="#cut">Plan it in Cut</a>`)
        : nothing,
    present.readings
      ? nothing
      : notice("No readings are noted.", html`<a href="#measure">Measure the gap</a>`),
  ];
}

const notice = (text: string, remedy: TemplateResult): TemplateResult =>
  html`<p class="notice">${icon("info")}<span>${text} <span class="controls">${remedy}</span></span></p>`;
