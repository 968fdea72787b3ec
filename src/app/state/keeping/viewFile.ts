import { FIRST_VIEW, type View } from "../state.ts";

const MOST_RESONANCES = 30;
const LONGEST_NAME = 200;

const text = (value: unknown): string => (typeof value === "string" ? value.slice(0, LONGEST_NAME) : "");

/** The view as it was kept; what cannot be read of it is as on a first visit, since nobody's work is lost with it. */
export function readView(json: unknown): View {
  const kept = (typeof json === "object" && json !== null ? json : {}) as Partial<
    Record<keyof View, unknown>
  >;
  const isResonance = (value: unknown): value is number =>
    Number.isInteger(value) && (value as number) >= 1 && (value as number) <= MOST_RESONANCES;
  return {
    unit: kept.unit === "mm" || kept.unit === "in" ? kept.unit : FIRST_VIEW.unit,
    resonance: isResonance(kept.resonance) ? kept.resonance : FIRST_VIEW.resonance,
    retune: isResonance(kept.retune) ? kept.retune : FIRST_VIEW.retune,
    showRetuned: kept.showRetuned === true,
    magnitude: kept.magnitude === "dB" ? "dB" : FIRST_VIEW.magnitude,
    theme: kept.theme === "light" || kept.theme === "dark" ? kept.theme : FIRST_VIEW.theme,
    hintsSeen: kept.hintsSeen === true,
    workshop: text(kept.workshop),
    technician: text(kept.technician),
  };
}
