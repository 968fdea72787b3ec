/** The strip of pitch on the page, as it grows. */
import { html } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type PitchStrip, pitchStripFigure } from "../../../charts/plots/listen/pitchStrip.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import "../../chart/chartElement.ts";
import { PageElement } from "../../state/page.ts";
import type { Asked } from "./question.ts";
import type { ListenSession } from "./session.ts";
import { stripOf } from "./strip.ts";

@customElement("annulus-listen-strip")
export class StripView extends PageElement {
  @property({ attribute: false }) session!: ListenSession;
  /** What is meant by what is heard between takes. */
  @property({ attribute: false }) asked!: Asked;
  #strip!: PitchStrip;

  protected override willUpdate(): void {
    const { phase, points, seconds, edges, found } = this.session.parts;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    this.#strip = stripOf({ phase, points, seconds, edges, found }, this.asked, instrument);
  }

  override render() {
    return html`<annulus-chart .figure=${pitchStripFigure} .data=${this.#strip}></annulus-chart>`;
  }
}
