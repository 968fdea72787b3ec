/** What was found in a take, what to think of it, and what to do with it. */
import { html, nothing, type TemplateResult } from "lit";
import { measuredIn } from "../../../listen/keptTake.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { listenWarningWords } from "../../../words/listen/listenWarning.ts";
import { takeWords } from "../../../words/listen/takeWords.ts";
import { icon } from "../../shell/look/icon.ts";
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
  return html`
    <section class="ruled stack" aria-label="What was found">
      <h3>What was found${file ? html` <span class="muted">in ${file}</span>` : nothing}</h3>
      <p class="found" data-testid="found">${takeWords(take, asked, instrument)}</p>
      ${
        take.warnings.length > 0
          ? html`<ul class="warnings" data-testid="listen-warnings">${take.warnings.map((warning) => html`<li class="notice">${icon("warning")}<span>${listenWarningWords(warning)}</span></li>`)}</ul>`
          : nothing
      }
      <audio controls src=${address} aria-label="The take" data-testid="play-back"></audio>
      <div class="decide">
        <button type="button" class="keep" data-testid="keep-take" ?disabled=${!canKeep} @click=${keep}>${icon("check")}Keep</button>
        <button type="button" data-testid="redo-take" @click=${again}>${icon("reset")}Play again</button>
        <button type="button" data-testid="drop-take" @click=${drop}>${icon("xmark")}Drop</button>
      </div>
    </section>
  `;
}
