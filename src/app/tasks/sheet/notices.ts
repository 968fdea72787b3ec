/** What does not go together in the job, each with the way to put it right. */
import { html, nothing, type TemplateResult } from "lit";
import { gapMm, isSameGap } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { roundedLength } from "../../../units/uncertainLength.ts";
import { doubtNotices } from "../../shell/doubtNotices.ts";
import { notice } from "../../shell/look/notice.ts";
import type { SheetData } from "./record.ts";

export function notices({ record }: SheetData): unknown {
  const { unit, setup, present, recommendation } = record;
  const length = (mm: number) => formatLength(mm, unit);
  const presentText = roundedLength(present.gapMm, present.expandedMm, unit);
  const isInFile = isSameGap(present.gapMm, gapMm(setup));
  return [
    doubtNotices(record.doubts, unit),
    present.readings && !isInFile
      ? remediable(
          `The gap measured is ${presentText}; the instrument's file has ${length(gapMm(setup))}. Changes are counted from the measured one.`,
          html`<a href="#measure">Use it in the file too</a>`,
        )
      : nothing,
    recommendation.kind === "preferred"
      ? remediable("How the gap is to be changed is not planned.", html`<a href="#cut">Plan it in Cut</a>`)
      : recommendation.kind === "planned" && !record.way
        ? remediable(
            "How the gap is to be changed is not chosen.",
            html`<a href="#cut">Choose a way in Cut</a>`,
          )
        : recommendation.kind === "none" && recommendation.because === "nothing-planned"
          ? remediable(
              "Nothing is recommended: no gap is planned, and no blind trial has found one.",
              html`<a href="#trial">Try several, blind</a> <a href="#cut">Plan one</a>`,
            )
          : nothing,
    present.readings
      ? nothing
      : remediable("No readings are noted.", html`<a href="#measure">Measure the gap</a>`),
  ];
}

const remediable = (text: string, remedy: TemplateResult): TemplateResult =>
  notice(html`${text} <span class="controls">${remedy}</span>`);
