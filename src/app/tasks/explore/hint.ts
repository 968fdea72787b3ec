/** A numbered hint above what it speaks of, on a first visit only: it covers nothing. */
import { css, html, nothing, type TemplateResult } from "lit";

const HINTS = {
  1: "Drag the shank, or use the slider: the gap opens and closes.",
  2: "Read here what that does, and whether a player would notice.",
  3: "The hatched band: a change inside it is too small to notice.",
} as const;

export const hint = (number: keyof typeof HINTS, show: boolean): TemplateResult | typeof nothing =>
  show
    ? html`<p class="hint hint-${number}" data-testid="hint-${number}"><b>${number}</b>${HINTS[number]}</p>`
    : nothing;

export const hintStyles = css`
  .hint {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    width: fit-content;
    max-width: 100%;
    margin-bottom: 0.4rem;
    padding: 0.2rem 0.75rem 0.2rem 0.2rem;
    background: var(--ink);
    color: var(--paper);
    border-radius: 1.25rem;
    font-size: var(--type-14);
    line-height: 1.2;
    text-wrap: balance;
  }
  .hint b {
    flex: none;
    display: grid;
    place-items: center;
    width: 1.6rem;
    height: 1.6rem;
    border-radius: 50%;
    background: var(--gap);
    color: var(--paper);
  }
  /* without its ground the hint needs an edge */
  @media (forced-colors: active) {
    .hint {
      border: 1px solid CanvasText;
      background: Canvas;
      color: CanvasText;
    }
  }
  @media print {
    .hint {
      display: none;
    }
  }
`;
