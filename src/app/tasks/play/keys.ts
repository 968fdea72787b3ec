/** What keys do to the live instrument. */
import type { Blowing } from "../../../lips/oscillator.ts";
import { hasOwnUse } from "../../form/ownUse.ts";

const FINE_CENTS = 10;
const COARSE_CENTS = 50;
const FINE_PRESSURE = 100;
const COARSE_PRESSURE = 500;

/** Where an arrow key leads the lips, with Shift further; null for another key. */
export function arrowMove(event: KeyboardEvent, { lipHz, mouthPressure }: Blowing): Partial<Blowing> | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  const octaves = (event.shiftKey ? COARSE_CENTS : FINE_CENTS) / 1200;
  const pascals = event.shiftKey ? COARSE_PRESSURE : FINE_PRESSURE;
  switch (event.key) {
    case "ArrowRight":
      return { lipHz: lipHz * 2 ** octaves };
    case "ArrowLeft":
      return { lipHz: lipHz / 2 ** octaves };
    case "ArrowUp":
      return { mouthPressure: mouthPressure + pascals };
    case "ArrowDown":
      return { mouthPressure: mouthPressure - pascals };
    default:
      return null;
  }
}

export interface Commands {
  readonly stop: () => void;
  readonly toggle: () => void;
  readonly chooseNote: (n: number) => void;
}

/** Escape stops from anywhere; Space and the notes' numbers work wherever they have no other meaning. */
export function playByKeys(page: Window, { stop, toggle, chooseNote }: Commands, signal: AbortSignal): void {
  page.addEventListener(
    "keydown",
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === "Escape") stop();
      else if (hasOwnUse(event)) return;
      else if (event.key === " " && !event.repeat) toggle();
      else if (/^[0-9]$/.test(event.key) && event.key !== "1") chooseNote(Number(event.key) || 10);
      else return;
      if (event.key !== "Escape") event.preventDefault();
    },
    { signal },
  );
}
