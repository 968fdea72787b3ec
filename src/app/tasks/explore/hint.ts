/** A numbered hint on the sheet, on a first visit only. */
import { html, nothing, type TemplateResult } from "lit";

const HINTS = {
  1: "Drag the shank, or use the slider: the gap opens and closes.",
  2: "Read here what that does, and whether anyone would feel it.",
  3: "The hatched band: a change inside it is too small to notice.",
} as const;

export const hint = (number: keyof typeof HINTS, show: boolean): TemplateResult | typeof nothing =>
  show
    ? html`<p class="hint hint-${number}" data-testid="hint-${number}"><b>${number}</b>${HINTS[number]}</p>`
    : nothing;
