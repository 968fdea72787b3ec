/** The hold of every note against gap. */
import { customElement } from "lit/decorators.js";
import type { Drawing, Frame } from "../../../charts/kit/drawing.ts";
import type { GapDrawing } from "../../../charts/plots/gap/gapChart.ts";
import { holdChart, holdTable } from "../../../charts/plots/gap/holdChart.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { keyMove } from "../../form/gap/gapSteps.ts";
import { shownGaps } from "../../state/gapLimits.ts";

@customElement("annulus-slots-hold")
export class SlotsHoldView extends ChartFigure {
  protected readonly name = "hold-against-gap";
  protected readonly label = "Hold of each note against gap";
  protected override readonly followsHand = false;
  protected override readonly keysHint =
    "Left and right arrow keys move the read-out line, with Shift in large steps; Enter takes the gap.";
  protected readonly about =
    "Each line is one note: how many cents wider or narrower the lip frequencies are that start it than at the reference gap. " +
    "All gaps are blown alike. Inside the hatched band a change is too small to feel; that band is the threshold for pitch, " +
    "lent to hold for want of another.";

  protected caption() {
    return "How much wider each slot gets. The trade's rule asks for more with a wider gap.";
  }

  protected answer() {
    return this.page.feel.parts.holds;
  }

  protected heightFor(width: number) {
    return Math.min(420, Math.max(300, 0.62 * width));
  }

  protected inputs() {
    const { document, view } = this.page.store.parts;
    return [this.page.feel.parts.holds.value, document.setup.thresholds, view.resonance, ...this.#domain];
  }

  protected draw(frame: Frame): Drawing | null {
    const { value } = this.page.feel.parts.holds;
    const { document, view } = this.page.store.parts;
    return (
      value &&
      holdChart(
        {
          slots: value,
          // the gaps that were asked about begin with it
          referenceGapMm: value[0].gapMm,
          chosenGapMm: document.gapMm,
          thresholds: document.setup.thresholds,
          domainMm: this.#domain,
          highlight: view.resonance,
        },
        frame,
      )
    );
  }

  protected override followed() {
    return [this.page.store.parts.document.gapMm, this.pointer.parts.gapMm];
  }

  protected override follow(drawing: Drawing): void {
    const { gapMm } = this.pointer.parts;
    (drawing as GapDrawing).move({
      chosenGapMm: this.page.store.parts.document.gapMm,
      ...(gapMm !== null && { cursorGapMm: gapMm }),
    });
  }

  protected table() {
    const { value } = this.page.feel.parts.holds;
    return (
      value && holdTable({ slots: value, referenceGapMm: value[0].gapMm }, this.page.store.parts.view.unit)
    );
  }

  protected override onPoint(event: PointerEvent): void {
    const [x, y] = this.placeOf(event);
    if (this.isInPlot(x, y)) this.pointer.point({ gapMm: this.drawing!.x.invert(x) });
    else this.pointer.leave();
  }

  protected override onKey(event: KeyboardEvent): void {
    const { store } = this.page;
    const { parts: state } = store;
    const gapMm = this.pointer.parts.gapMm ?? state.document.gapMm;
    if (event.key === "Enter") store.setGap(gapMm);
    if (event.key === "Escape") this.pointer.leave();
    const move = keyMove(event, state.view.unit);
    if (move === null) return;
    event.preventDefault();
    const [low, high] = this.#domain;
    const to = Math.min(high, Math.max(low, gapMm + move));
    this.pointer.point({ gapMm: to });
    this.say(`gap ${bothUnits(to, state.view.unit)}`);
  }

  get #domain(): [low: number, high: number] {
    const { setup, gapMm, referenceGapMm } = this.page.store.parts.document;
    const { leastMm, mostMm } = shownGaps(setup);
    return [leastMm, Math.max(mostMm, gapMm, referenceGapMm)];
  }
}
