/** One way to the target: its size, what else it changes, whether it can be undone; or why it cannot be gone. */
import { css, html, nothing, type TemplateResult } from "lit";
import type { CutPlan } from "../../../bench/cut/cut.ts";
import type { CutSideEffect, CutWay } from "../../../bench/cut/cutWay.ts";
import { fineLength } from "../../../charts/drawings/shankCut.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { CUT_DIMENSION, stageSize, WAY_TITLE, wayWords } from "../../../words/bench/cut.ts";
import { cautionWords, HELD_BACK } from "../../../words/bench/cutCautions.ts";
import { icon } from "../../shell/look/icon.ts";
import { warning } from "../../shell/look/notice.ts";

export interface WayChoice {
  readonly isChosen: boolean;
  readonly unit: LengthUnit;
  /** Until what contradicts the gap is acknowledged. */
  readonly isWaiting: boolean;
  readonly choose: () => void;
}

export function wayCard(
  way: CutWay,
  plan: CutPlan,
  { isChosen, unit, isWaiting, choose }: WayChoice,
): TemplateResult {
  const { name, size, isPossible, isReversible, isHeldBack } = way;
  const title = WAY_TITLE[name];
  const cautions = cautionWords(way.cautions, plan);
  return html`
    <article class="way ${isChosen ? "chosen" : ""} ${isPossible ? "" : "impossible"}" data-testid="way-${name}">
      <h3>${capital(title)}</h3>
      ${isPossible && size !== undefined ? html`<p class="size">${stageSize(size, way.unit, unit)}</p>` : nothing}
      <p class="undo">
        ${
          !isPossible
            ? html`${icon("minus")}<span>Not possible.</span>`
            : isReversible
              ? html`${icon("undo")}<span>Can be undone.</span>`
              : html`${icon("warning")}<strong>Cannot be undone.</strong>`
        }
      </p>
      ${wayWords(way, plan.unit).map((line) => html`<p>${line}</p>`)}
      ${isPossible ? effects(way, unit) : nothing}
      ${
        isPossible && cautions.length > 0
          ? html`
              <details>
                <summary>Cautions (${cautions.length})</summary>
                <ul>${cautions.map((line) => html`<li>${line}</li>`)}</ul>
              </details>
            `
          : nothing
      }
      ${isHeldBack ? warning(html`${HELD_BACK} <a href="#measure">Measure</a>`) : nothing}
      ${
        isPossible && !isHeldBack
          ? html`
              <button
                type="button"
                aria-pressed=${isChosen ? "true" : "false"}
                aria-label=${`Choose: ${title}`}
                ?disabled=${isWaiting}
                @click=${choose}
              >
                ${isChosen ? icon("check") : nothing}Choose
              </button>
            `
          : nothing
      }
    </article>
  `;
}

const effects = ({ sideEffects, columnChangeMm }: CutWay, unit: LengthUnit): TemplateResult => html`
  <dl>
    ${sideEffects.map((effect) => html`<dt>${CUT_DIMENSION[effect.what]}</dt><dd>${fromTo(effect, unit)}</dd>`)}
    <dt>air column, rim to leadpipe</dt>
    <dd>${columnWords(columnChangeMm, unit)}</dd>
  </dl>
  ${columnWords(columnChangeMm, unit) === unchanged ? nothing : html`<p class="muted">The tuning slide takes up the change of the air column.</p>`}
`;

const fromTo = ({ beforeMm, afterMm }: CutSideEffect, unit: LengthUnit): string =>
  `${fineLength(beforeMm, unit).replace(/ \w+$/, "")} → ${fineLength(afterMm, unit)}`;

const unchanged = "as long as it was";

function columnWords(changeMm: number, unit: LengthUnit): string {
  const length = fineLength(Math.abs(changeMm), unit);
  if (length === fineLength(0, unit)) return unchanged;
  return `${length} ${changeMm < 0 ? "shorter" : "longer"}`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export const wayCardStyles = css`
  .ways {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(16.5rem, 100%), 1fr));
    gap: 1rem;
    align-items: stretch;
  }
  .way {
    display: flex;
    flex-direction: column;
    gap: 0.5rem;
    min-width: 0;
    padding: 0.75rem 1rem 1rem;
    border: 1px solid var(--hairline);
    border-top: 1.5px solid var(--ink);
    font-size: var(--type-14);
    break-inside: avoid;
  }
  .way.chosen {
    border: 2px solid var(--gap);
    padding: calc(0.75rem - 0.5px) calc(1rem - 1px) calc(1rem - 1px);
  }
  .way.impossible {
    border-style: dashed;
  }
  .way .size {
    font-size: var(--type-20);
    font-weight: 650;
    line-height: 1.2;
  }
  .way .undo {
    display: flex;
    align-items: center;
    gap: 0.4rem;
  }
  .way button {
    align-self: flex-start;
    margin-top: auto;
    min-width: 8rem;
  }
  dl {
    display: grid;
    grid-template-columns: minmax(0, 1fr) max-content;
    margin: 0;
    border-top: 1px solid var(--hairline);
  }
  dt,
  dd {
    margin: 0;
    padding: 0.2rem 0;
    border-bottom: 1px solid var(--hairline);
  }
  dt {
    color: var(--muted);
    padding-right: 0.75rem;
  }
  dd {
    text-align: right;
  }
  summary {
    display: inline-flex;
    align-items: center;
    min-height: var(--touch);
    cursor: pointer;
    text-decoration: underline;
    text-underline-offset: 0.25em;
    text-decoration-color: var(--hairline);
  }
  ul {
    margin: 0;
    padding-left: 1.1rem;
  }
  li {
    padding-bottom: 0.3rem;
  }
`;
