/** The figures of every resonance and note that candidates are compared by, as they are shown. */
import type { Thresholds } from "../../../setup/setup.ts";
import type { MODE_QUANTITIES, NOTE_QUANTITIES } from "../../../study/compare/compareQuantities.ts";

export type QuantityKey = keyof typeof MODE_QUANTITIES | keyof typeof NOTE_QUANTITIES;

export interface ShownQuantity {
  /** Its name in goals, before the number. */
  readonly key: QuantityKey;
  readonly title: string;
  readonly unit: string;
  readonly of: "resonance" | "note";
  readonly digits: number;
  /** From which difference on it is felt; null where no threshold is known. */
  readonly feltFrom: (thresholds: Thresholds) => number | null;
}

const byCents = ({ cents }: Thresholds): number => cents;
const bySlot = ({ slotCents }: Thresholds): number => slotCents;
const byDecibels = ({ decibels }: Thresholds): number => decibels;
const unknown = (): null => null;

export const QUANTITIES: readonly ShownQuantity[] = [
  {
    key: "cents",
    title: "equivalent fundamental",
    unit: "cents",
    of: "resonance",
    digits: 1,
    feltFrom: byCents,
  },
  {
    key: "shift",
    title: "resonance compared with the other's",
    unit: "cents",
    of: "resonance",
    digits: 1,
    feltFrom: byCents,
  },
  { key: "f", title: "resonance", unit: "Hz", of: "resonance", digits: 2, feltFrom: unknown },
  {
    key: "height",
    title: "peak height",
    unit: "dB above 1 MPa·s/m³",
    of: "resonance",
    digits: 2,
    feltFrom: byDecibels,
  },
  {
    key: "rise",
    title: "peak compared with the other's",
    unit: "dB",
    of: "resonance",
    digits: 2,
    feltFrom: byDecibels,
  },
  { key: "Q", title: "quality factor", unit: "Q", of: "resonance", digits: 2, feltFrom: unknown },
  {
    key: "spacing",
    title: "spacing to the next",
    unit: "cents",
    of: "resonance",
    digits: 1,
    feltFrom: byCents,
  },
  { key: "hold", title: "hold", unit: "cents of the lips", of: "note", digits: 1, feltFrom: bySlot },
  { key: "pull", title: "pull", unit: "0 locks, 1 follows", of: "note", digits: 3, feltFrom: unknown },
  { key: "threshold", title: "starting pressure", unit: "Pa", of: "note", digits: 0, feltFrom: unknown },
];

export const quantityOf = (key: QuantityKey): ShownQuantity =>
  QUANTITIES.find((quantity) => quantity.key === key) ?? QUANTITIES[0];
