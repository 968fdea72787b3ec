/** What is being computed that takes its time, how far it is, and a way to stop it. Short work shows nothing. */

import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { noteText } from "../../../words/instruments.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { stoppedLine, workLine } from "../../shell/look/workLine.ts";
import { PageElement } from "../../state/page.ts";

const PATIENCE_MS = 250;

@customElement("annulus-long-work")
export class LongWork extends PageElement {
  @state() private isLong = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        min-height: var(--touch);
        font-size: var(--type-14);
      }
      div {
        display: flex;
        align-items: center;
        gap: 0.75rem;
      }
      @media (max-width: 699px) {
        :host {
          min-height: 0;
        }
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  protected override willUpdate(): void {
    const { sweep, retuned } = this.page.model.parts;
    const isBusy = sweep.progress !== null || retuned.progress !== null;
    if (!isBusy) {
      clearTimeout(this.#timer);
      this.#timer = undefined;
      this.isLong = false;
      return;
    }
    this.#timer ??= setTimeout(() => {
      this.isLong = true;
    }, PATIENCE_MS);
  }

  override render() {
    const { sweep, retuned } = this.page.model.parts;
    const { model } = this.page;
    const { retune, showRetuned } = this.page.store.parts.view;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const refused = (showRetuned ? retuned.refused : null) ?? sweep.refused;
    if (refused) return html`<div role="alert">${icon("warning")}<span>${refused}</span></div>`;
    if (sweep.stopped || retuned.stopped)
      return html`
        <div role="status">
          ${stoppedLine(
            () => model.sweepAgain(),
            "Stopped: the charts of the effect of gap width are of another instrument or another gap compared with.",
          )}
        </div>
      `;
    if (!this.isLong) return nothing;
    const isSecond = sweep.progress === null;
    const what = isSecond
      ? `every note at every gap, ${retune === null ? "the" : noteText(retune, instrument)} tuned back`
      : "every note at every gap";
    return html`
      <div role="status">
        ${workLine({
          doing: `Computing ${what}`,
          label: "Computing",
          share: (isSecond ? retuned.progress : sweep.progress) ?? 0,
          stop: () => model.stopSweeps(),
          stopId: "stop",
        })}
      </div>
    `;
  }
}
