/** Where a cut starts, what it is to reach and how far that is: the largest things on its sheet. */

import { css, html, nothing, type TemplateResult } from "lit";
import type { CutPlan } from "../../../bench/cut/cut.ts";
import { coverageFactor } from "../../../bench/measure/coverage.ts";
import { gapUncertainty } from "../../../bench/measure/gapUncertainty.ts";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { unknownGapWords } from "../../../words/bench/gapUncertainty.ts";
import { warning } from "../../shell/look/notice.ts";

/** The gap of the open setup, and how well it is known. */
export function presentGap(setup: Setup, unit: LengthUnit): TemplateResult {
  const presentMm = gapMm(setup);
  const known = gapUncertainty(setup, coverageFactor);
  const { expandedMm } = known;
  const { receiver, mouthpiece } = setup;
  return html`
    <section class="figure present" aria-labelledby="present">
      <h2 id="present">Your gap</h2>
      <p class="big" data-testid="present-gap">${plusMinus(presentMm, expandedMm, unit)}</p>
      <p class="other">${plusMinus(presentMm, expandedMm, otherUnit(unit))}</p>
      ${
        expandedMm !== undefined
          ? html`<p class="muted">95 %, k = ${known.coverageFactor!.toFixed(2)}</p>`
          : warning(html`${unknownGapWords(known)} <a href="#measure">Measure it</a>`, { testId: "unknown" })
      }
      <p class="muted">
        Receiver depth ${formatLength(receiver.depthMm, unit)} less insertion
        ${formatLength(mouthpiece.insertionMm, unit)}.
      </p>
    </section>
  `;
}

/** What lies between the two. */
export function changeNeeded(plan: CutPlan | null, unit: LengthUnit): TemplateResult {
  return html`
    <section class="figure" aria-labelledby="change">
      <h2 id="change">Change</h2>
      ${plan?.changeMm === undefined || plan.limitsMm === undefined ? html`<p class="muted">Give a planned gap.</p>` : between(plan, plan.changeMm, plan.limitsMm, unit)}
    </section>
  `;
}

function between(
  { targetMm, expandedUncertaintyMm }: CutPlan,
  changeMm: number,
  limitsMm: readonly [number, number],
  unit: LengthUnit,
): TemplateResult {
  const enoughMm = limitsMm[1] - targetMm!;
  const size = (of: LengthUnit) => roundedLength(Math.abs(changeMm), expandedUncertaintyMm, of);
  const direction = changeMm === 0 ? "" : changeMm < 0 ? "less" : "more";
  return html`
    <p class="big" data-testid="change">${size(unit)} ${direction}</p>
    <p class="other">${size(otherUnit(unit))}</p>
    <p>
      Done as soon as the gap is from <b>${lengthSpan(limitsMm, enoughMm, unit)}</b>
      (${lengthSpan(limitsMm, enoughMm, otherUnit(unit))}).
    </p>
    ${expandedUncertaintyMm === undefined ? html`<p class="muted">By the tolerance alone.</p>` : nothing}
  `;
}

const otherUnit = (unit: LengthUnit): LengthUnit => (unit === "mm" ? "in" : "mm");

export const cutFigureStyles = css`
  .figures {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    gap: 1.25rem 2rem;
  }
  .figure {
    display: grid;
    gap: 0.25rem;
    align-content: start;
    min-width: 0;
    font-size: var(--type-14);
  }
  .figure + .figure {
    padding-left: 2rem;
    border-left: 1px solid var(--hairline);
  }
  .figure h2 {
    font-size: var(--type-14);
    font-weight: 650;
  }
  .big {
    font-size: var(--type-28);
    font-weight: 700;
    line-height: 1.1;
    letter-spacing: -0.01em;
  }
  .other {
    font-size: var(--type-16);
    font-weight: 600;
  }
  .present .big,
  .present .other {
    color: var(--reference);
  }
  @container sheet (max-width: 799px) {
    .figures {
      grid-template-columns: minmax(0, 1fr);
    }
    .figure + .figure {
      padding: 1rem 0 0;
      border-left: 0;
      border-top: 1px solid var(--hairline);
    }
  }
`;
