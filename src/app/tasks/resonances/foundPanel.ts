/** What was found in a take of sweeps, what to think of it, and what to do with it. */
import { html, nothing, type TemplateResult } from "lit";
import { RESPONSE_WARNING } from "../../../words/response/responseWarning.ts";
import { clockWords } from "../../../words/swept/sweptWords.ts";
import { icon } from "../../shell/look/icon.ts";
import { foundSection } from "../../sound/foundSection.ts";
import type { Found } from "./session.ts";

export interface FoundPanel {
  readonly found: Found;
  /** What the take is kept as, `before, at 2.50 mm, 20.4 °C`; empty while that is not known. */
  readonly place: string;
  readonly keep: () => void;
  readonly drop: () => void;
}

export function foundPanel({ found: { take, file }, place, keep, drop }: FoundPanel): TemplateResult {
  const { resonances, warnings, signalToNoiseDb, clock } = take;
  const noise = signalToNoiseDb === null ? "" : `, ${signalToNoiseDb.toFixed(0)} dB over the noise`;
  const last = resonances[resonances.length - 1];
  return foundSection({
    file,
    finding:
      resonances.length === 0
        ? "No resonance can be told."
        : `${resonances.length} resonances, ${resonances[0].hz.toFixed(0)} to ${last.hz.toFixed(0)} Hz${noise}.`,
    warnings: warnings.map((warning) => RESPONSE_WARNING[warning]),
    basis:
      resonances.length > 0
        ? html`
            <p class="small muted" data-testid="clock">${clockWords(clock)}</p>
            <div class="scroll">
              <table data-testid="found-resonances">
                <thead><tr><th class="number">Hz</th><th class="number">±</th><th class="number">Q</th><th class="number">±</th></tr></thead>
                <tbody>
                  ${resonances.map(({ hz, hzUncertainty, q, qUncertainty }) => html`<tr><td class="number">${hz.toFixed(2)}</td><td class="number">${hzUncertainty.toFixed(2)}</td><td class="number">${q.toFixed(2)}</td><td class="number">${qUncertainty.toFixed(2)}</td></tr>`)}
                </tbody>
              </table>
            </div>
          `
        : nothing,
    decisions: html`
      <button type="button" class="keep" data-testid="keep-sweep" ?disabled=${resonances.length === 0 || place === ""} @click=${keep}>${icon("check")}Keep${place ? ` as ${place}` : ""}</button>
      <button type="button" data-testid="drop-sweep" @click=${drop}>${icon("xmark")}Drop</button>
    `,
  });
}
