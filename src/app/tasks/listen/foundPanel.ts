/** What was found in a take, what to think of it, and what to do with it. */
import { html, type TemplateResult } from "lit";
import { measuredIn } from "../../../listen/keptTake.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { listenWarningWords } from "../../../words/listen/listenWarning.ts";
import { takeWords } from "../../../words/listen/takeWords.ts";
import { icon } from "../../shell/look/icon.ts";
import { foundSection } from "../../sound/foundSection.ts";
import type { Found } from "./session.ts";

export interface FoundPanel {
  readonly found: Found;
  readonly instrument: InstrumentKind;
  readonly isPlaced: boolean;
  readonly keep: () => void;
  readonly again: () => void;
  readonly drop: () => void;
}

export function foundPanel({ found, instrument, isPlaced, keep, again, drop }: FoundPanel): TemplateResult {
  const { asked, take, address, file } = found;
  const canKeep = measuredIn(take, asked.hz) !== null && isPlaced;
  return foundSection({
    file,
    finding: takeWords(take, asked, instrument),
    warnings: take.warnings.map(listenWarningWords),
    basis: html`<audio controls src=${address} aria-label="The take" data-testid="play-back"></audio>`,
    decisions: html`
      <button type="button" class="keep" data-testid="keep-take" ?disabled=${!canKeep} @click=${keep}>${icon("check")}Keep</button>
      <button type="button" data-testid="redo-take" @click=${again}>${icon("reset")}Play again</button>
      <button type="button" data-testid="drop-take" @click=${drop}>${icon("xmark")}Drop</button>
    `,
  });
}
