/** The stream across the gap, drawn from the computed case nearest to this breath and gap. */
import { html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { gapStreamFigure } from "../../../charts/plots/gap/streamChart.ts";
import { gapStreamNumbers, nearestGapStream } from "../../../study/blown/gapStream.ts";
import { PageElement } from "../../state/page.ts";
import "../../chart/chartElement.ts";

@customElement("annulus-gap-stream")
export class GapStreamView extends PageElement {
  override render() {
    const { setup, gapMm, breathLitresPerMinute = 0 } = this.page.store.parts.document;
    if (breathLitresPerMinute === 0) return nothing;
    const own = gapStreamNumbers(setup, gapMm, breathLitresPerMinute);
    if (!own) return html`<p>The gap is closed: no stream crosses one.</p>`;
    const data = { drawn: nearestGapStream(own), own };
    return html`<annulus-chart .figure=${gapStreamFigure} .data=${data}></annulus-chart>`;
  }
}
