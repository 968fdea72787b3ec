/** One quantity of every resonance against gap: height, shift or spacing, as it is or retuned. */
import { customElement, property } from "lit/decorators.js";
import type { Drawing, Frame, Table } from "../../../charts/kit/drawing.ts";
import type { GapChartData, GapDrawing } from "../../../charts/plots/gap/gapChart.ts";
import { heightChart, heightTable } from "../../../charts/plots/gap/heightChart.ts";
import {
  shiftChart,
  shiftTable,
  spacingChart,
  spacingTable,
} from "../../../charts/plots/gap/spacingChart.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import { PLAYED } from "../../../study/change/verdicts.ts";
import type { GapRow, GapSweep } from "../../../study/instrument/gapSweep.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { keyMove } from "../../form/gap/gapSteps.ts";
import { holdGap } from "../../form/gap/holdGap.ts";
import { shownGaps } from "../../state/gapLimits.ts";

interface Kind {
  readonly label: string;
  readonly caption: string;
  readonly about: string;
  readonly unit: "dB" | "cents";
  readonly digits: number;
  readonly draw: (data: GapChartData, frame: Frame) => GapDrawing;
  readonly table: (data: { readonly sweep: GapSweep }, unit: LengthUnit) => Table;
  readonly of: (mode: ChangedMode) => number | null;
}

const KINDS = {
  height: {
    label: "Height of each peak against gap",
    caption:
      "How much taller or lower each peak gets. A line inside the hatched band is a change nobody feels.",
    about:
      "Each line is one resonance, numbered at its end: how many decibels its peak is taller or lower than at the reference " +
      "gap. A taller peak helps the lips more. Inside the hatched band a change is too small to feel.",
    unit: "dB",
    digits: 2,
    draw: heightChart,
    table: heightTable,
    of: ({ heightDb }) => heightDb,
  },
  shift: {
    label: "Pitch shift of each resonance against gap",
    caption: "How far each resonance moves in pitch. The tuning slide takes back what all have in common.",
    about:
      "Each line is one resonance: how many cents it lies above or below where it is at the reference gap. What all lines " +
      "have in common the player takes back with the tuning slide; switch to “slide retuned” to see what remains.",
    unit: "cents",
    digits: 1,
    draw: shiftChart,
    table: shiftTable,
    of: ({ shiftCents }) => shiftCents,
  },
  spacing: {
    label: "Spacing to the upper neighbour against gap",
    caption: "How much further apart neighbours move. The trade's rule asks for more with a wider gap.",
    about:
      "Each line is one resonance: how many cents further from (or nearer to) the next one up it lies than at the reference " +
      "gap. Retuning hardly changes it.",
    unit: "cents",
    digits: 1,
    draw: spacingChart,
    table: spacingTable,
    of: ({ spacingChangeCents }) => spacingChangeCents,
  },
} as const satisfies Record<string, Kind>;

/** A pointer this near to a line means it, px. */
const NEAR_PX = 14;

@customElement("annulus-gap-chart")
export class GapChartView extends ChartFigure {
  @property() quantity: keyof typeof KINDS = "height";
  /** Its gap lines alone follow. */
  protected override readonly followsHand = false;
  protected override readonly keysHint =
    "Left and right arrow keys move the read-out line, with Shift in large steps; up and down choose a resonance; Enter takes the gap.";

  get #kind(): Kind {
    return KINDS[this.quantity];
  }
  protected get name() {
    return `${this.quantity}-against-gap`;
  }
  protected get label() {
    return this.#kind.label;
  }
  protected get about() {
    return this.#kind.about;
  }

  protected caption() {
    return this.#kind.caption;
  }

  protected answer() {
    const { sweep, retuned } = this.page.model.parts;
    return this.page.store.parts.view.showRetuned && retuned.value ? retuned : sweep;
  }

  protected heightFor(width: number) {
    return Math.min(380, Math.max(290, 0.62 * width));
  }

  protected inputs() {
    const { setup } = this.page.store.parts.document;
    const [low, high] = this.#domain;
    return [this.#sweep, this.quantity, this.#highlight, setup.thresholds, low, high];
  }

  protected draw(frame: Frame): Drawing | null {
    const sweep = this.#sweep;
    if (!sweep) return null;
    const { setup, gapMm } = this.page.store.parts.document;
    return this.#kind.draw(
      {
        sweep,
        chosenGapMm: gapMm,
        thresholds: setup.thresholds,
        domainMm: this.#domain,
        highlight: this.#highlight,
      },
      frame,
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

  protected table(): Table | null {
    const sweep = this.#sweep;
    return sweep && this.#kind.table({ sweep }, this.page.store.parts.view.unit);
  }

  protected override onPoint(event: PointerEvent): void {
    if (!this.drawing || this.sheet.classList.contains("held")) return;
    const [x, y] = this.placeOf(event);
    if (!this.isInPlot(x, y)) {
      this.pointer.leave();
      return;
    }
    this.pointer.point({ gapMm: this.drawing.x.invert(x), resonance: this.#lineAt(x, y) });
  }

  protected override onPress(event: PointerEvent): void {
    const { drawing } = this;
    if (!drawing) return;
    if ((event.target as Element).closest("[data-part='gap-line']")) {
      const [grabbed] = this.placeOf(event);
      const off = drawing.x(this.page.store.parts.document.gapMm) - grabbed;
      this.pointer.leave();
      holdGap(this.sheet, event, this.page.store, (moved) =>
        this.drawing!.x.invert(this.placeOf(moved)[0] + off),
      );
      return;
    }
    const resonance = this.#lineAt(...this.placeOf(event));
    if (resonance !== null) this.page.store.setView({ resonance });
  }

  protected override onKey(event: KeyboardEvent): void {
    const { store } = this.page;
    const { parts: state } = store;
    const sweep = this.#sweep;
    if (!sweep) return;
    const gapMm = this.pointer.parts.gapMm ?? state.document.gapMm;
    if (event.key === "Enter") {
      store.setGap(gapMm);
      return;
    }
    if (event.key === "Escape") {
      this.pointer.leave();
      return;
    }
    if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      event.preventDefault();
      const n = state.view.resonance + (event.key === "ArrowUp" ? 1 : -1);
      if (n < PLAYED[0] || n > PLAYED[1]) return;
      store.setView({ resonance: n });
      this.#tell(sweep, gapMm, n);
      return;
    }
    const move = keyMove(event, state.view.unit);
    if (move === null) return;
    event.preventDefault();
    const [low, high] = this.#domain;
    const to = Math.min(high, Math.max(low, gapMm + move));
    this.pointer.point({ gapMm: to });
    this.#tell(sweep, to, this.#highlight);
  }

  #tell(sweep: GapSweep, gapMm: number, n: number): void {
    const { unit, digits } = this.#kind;
    const value = this.#valueOf(nearestRow(sweep, gapMm), n);
    const finding = value === null ? "no peak" : `${signed(value, digits)} ${unit}`;
    this.say(`gap ${bothUnits(gapMm, this.page.store.parts.view.unit)}, resonance ${n}: ${finding}`);
  }

  get #sweep(): GapSweep | null {
    return (this.answer().value as GapSweep | null) ?? null;
  }

  get #highlight(): number {
    return this.pointer.parts.resonance ?? this.page.store.parts.view.resonance;
  }

  get #domain(): [low: number, high: number] {
    const { setup, gapMm, referenceGapMm } = this.page.store.parts.document;
    const { leastMm, mostMm } = shownGaps(setup);
    return [leastMm, Math.max(mostMm, gapMm, referenceGapMm)];
  }

  #valueOf({ modes }: GapRow, n: number): number | null {
    const mode = modes.find((one) => one.n === n);
    return mode ? this.#kind.of(mode) : null;
  }

  /** The resonance whose line passes near a place in the drawing. */
  #lineAt(x: number, y: number): number | null {
    const sweep = this.#sweep;
    if (!sweep || !this.drawing || sweep.rows.length === 0) return null;
    const row = nearestRow(sweep, this.drawing.x.invert(x));
    let [best, away]: [number | null, number] = [null, NEAR_PX];
    for (const { n } of row.modes) {
      const value = this.#valueOf(row, n);
      if (n < PLAYED[0] || n > PLAYED[1] || value === null) continue;
      const distance = Math.abs(this.drawing.y(value) - y);
      if (distance < away) [best, away] = [n, distance];
    }
    return best;
  }
}

const nearestRow = ({ rows }: GapSweep, gapMm: number): GapRow =>
  rows.reduce((best, row) => (Math.abs(row.gapMm - gapMm) < Math.abs(best.gapMm - gapMm) ? row : best));
