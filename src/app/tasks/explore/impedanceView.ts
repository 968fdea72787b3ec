/** |Z| at the rim against frequency, chosen gap over reference. */
import { customElement } from "lit/decorators.js";
import type { Drawing, Frame, Table } from "../../../charts/kit/drawing.ts";
import { impedanceChart, impedanceTable } from "../../../charts/plots/impedanceChart.ts";
import type { ModeInContext } from "../../../study/instrument/modeTable.ts";
import { nearestNote } from "../../../words/notes.ts";
import { signed } from "../../../words/numbers.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { segments } from "../../shell/look/segments.ts";
import type { Magnitude } from "../../state/state.ts";

const SCALES = [
  { value: "linear", text: "linear" },
  { value: "dB", text: "dB", label: "dB, decibels" },
] as const;
/** What an arrow key moves the read-out line: a twentieth of a semitone; with Shift a semitone. */
const KEY_OCTAVES = { fine: 1 / 240, coarse: 1 / 12 };

@customElement("annulus-impedance")
export class ImpedanceView extends ChartFigure {
  protected readonly name = "impedance";
  protected readonly label = "Input impedance at the rim against frequency";
  protected override readonly keysHint =
    "Left and right arrow keys move the read-out line, with Shift by a semitone; up and down choose a resonance.";
  protected readonly about =
    "How strongly the instrument answers at the mouthpiece's rim: the ratio of sound pressure to flow, |Z|. Notes are blown " +
    "near the peaks; a taller peak helps the lips more, its place says at what pitch. The numbers are the resonances; " +
    "point at a peak or click it to see its standing wave.";

  protected caption() {
    return "Solid: the chosen gap. Dashed: the reference. Where they cover each other, the gap changes nothing.";
  }

  protected answer() {
    return this.page.model.parts.explored;
  }

  protected heightFor(width: number) {
    return Math.min(440, Math.max(280, 0.53 * width));
  }

  protected inputs() {
    const { value } = this.page.model.parts.explored;
    const { hz } = this.pointer.parts;
    return [value?.chosen, value?.reference, hz, this.#highlight, this.page.store.parts.view.magnitude];
  }

  protected draw(frame: Frame): Drawing | null {
    const { value } = this.page.model.parts.explored;
    if (!value) return null;
    const { hz } = this.pointer.parts;
    const { magnitude } = this.page.store.parts.view;
    const { chosen, reference } = value;
    return impedanceChart(
      { chosen, reference, highlight: this.#highlight, ...(hz !== null && { cursorHz: hz }) },
      { ...frame, magnitude },
    );
  }

  protected table(): Table | null {
    const { value } = this.page.model.parts.explored;
    return value && impedanceTable(value, this.page.store.parts.view.unit);
  }

  /** The resonances: sixteen hundred points of a curve are for a program to read. */
  protected override readableTable(): Table | null {
    const { value } = this.page.model.parts.explored;
    if (!value) return null;
    const of = ({ frequencyHz, Q, peakImpedance }: ModeInContext) => [
      frequencyHz,
      Q,
      peakImpedance === null ? "" : peakImpedance / 1e6,
    ];
    return {
      columns: [
        "resonance",
        "note",
        "chosen: frequency (Hz)",
        "Q",
        "peak (MPa·s/m³)",
        "reference: frequency (Hz)",
        "Q",
        "peak (MPa·s/m³)",
      ],
      rows: value.chosen.modes.map((mode) => {
        const { name, cents } = nearestNote(mode.frequencyHz);
        const before = value.reference.modes.find(({ n }) => n === mode.n);
        return [
          mode.n,
          `${name} ${signed(cents, 0)} cents`,
          ...of(mode),
          ...(before ? of(before) : ["", "", ""]),
        ];
      }),
    };
  }

  protected override switches() {
    const { store } = this.page;
    const { parts: state } = store;
    return segments<Magnitude>("Scale of |Z|", SCALES, state.view.magnitude, (magnitude) =>
      store.setView({ magnitude }),
    );
  }

  protected override onPoint(event: PointerEvent): void {
    const [x, y] = this.placeOf(event);
    if (!this.isInPlot(x, y)) {
      this.pointer.leave();
      return;
    }
    const hz = this.drawing!.x.invert(x);
    this.pointer.point({ hz, resonance: this.#nearest(hz)?.n ?? null });
  }

  protected override onPress(event: PointerEvent): void {
    const [x, y] = this.placeOf(event);
    if (!this.isInPlot(x, y)) return;
    const mode = this.#nearest(this.drawing!.x.invert(x));
    if (mode) this.page.store.setView({ resonance: mode.n });
  }

  protected override onKey(event: KeyboardEvent): void {
    const modes = this.page.model.parts.explored.value?.chosen.modes;
    if (!modes || !this.drawing || event.ctrlKey || event.metaKey || event.altKey) return;
    const current = modes.find(({ n }) => n === this.#highlight) ?? modes[0];
    const [low, high] = this.drawing.x.domain();
    let hz = this.pointer.parts.hz ?? current.frequencyHz;
    const octaves = event.shiftKey ? KEY_OCTAVES.coarse : KEY_OCTAVES.fine;
    if (event.key === "ArrowRight") hz *= 2 ** octaves;
    else if (event.key === "ArrowLeft") hz /= 2 ** octaves;
    else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      const n = current.n + (event.key === "ArrowUp" ? 1 : -1);
      const next = modes.find((mode) => mode.n === n) ?? current;
      hz = next.peakHz ?? next.frequencyHz;
      this.page.store.setView({ resonance: next.n });
    } else {
      if (event.key === "Escape") this.pointer.leave();
      return;
    }
    event.preventDefault();
    hz = Math.min(high, Math.max(low, hz));
    const resonance = this.#nearest(hz)?.n ?? null;
    this.pointer.point({ hz, resonance });
    const { name, cents } = nearestNote(hz);
    this.say(`${hz.toFixed(1)} Hz, ${name} ${signed(cents, 0)} cents, nearest resonance ${resonance}`);
  }

  get #highlight(): number {
    return this.pointer.parts.resonance ?? this.page.store.parts.view.resonance;
  }

  #nearest(hz: number): ModeInContext | undefined {
    const modes = this.page.model.parts.explored.value?.chosen.modes ?? [];
    const away = (mode: ModeInContext) => Math.abs(Math.log((mode.peakHz ?? mode.frequencyHz) / hz));
    return modes.reduce<ModeInContext | undefined>(
      (best, mode) => (best && away(best) <= away(mode) ? best : mode),
      undefined,
    );
  }
}
