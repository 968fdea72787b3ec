/** Where the person points: one read-out line through every chart against gap, one resonance that stands out in all. */
import { createContext } from "@lit/context";
import { Observable } from "../state/observable.ts";

export interface Pointed {
  readonly gapMm: number | null;
  readonly hz: number | null;
  /** The resonance pointed at; null: the one chosen in the view stands out. */
  readonly resonance: number | null;
}

const NOWHERE: Pointed = { gapMm: null, hz: null, resonance: null };

export class Cursor extends Observable<Pointed> {
  constructor() {
    super(NOWHERE);
  }

  point(at: Partial<Pointed>): void {
    const next = { ...NOWHERE, ...at };
    const { gapMm, hz, resonance } = this.value;
    if (next.gapMm !== gapMm || next.hz !== hz || next.resonance !== resonance) this.change(next);
  }

  leave(): void {
    this.change(NOWHERE);
  }
}

export const cursorContext = createContext<Cursor>(Symbol("cursor"));
