/** Sweeps of the instrument: what is mounted before and after, in what air, how long a sweep lasts, and every take that was kept. */
import { type KeptSweep, readSweeps, type Side } from "../../../response/keptSweep.ts";
import { length, quantity } from "../../form/field.ts";
import { flag, type KeptBy, kept, keptForm, oneOf } from "../../form/kept.ts";
import { temperature, temperatureDifference } from "../../form/quantity.ts";

const gap = (label: string) => length(label, { leastMm: 0, mostMm: 40 });

/** Of the sweep itself, s. */
export const SWEEP_SECONDS = ["4", "8", "16"] as const;

export const ROOM = quantity("Air in the instrument", temperature, { least: 0, most: 45 });
/** A thermometer that shows tenths, read anew at each take. */
export const THERMOMETER = quantity("Thermometer good to ±", temperatureDifference, {
  least: 0.01,
  most: 5,
  usual: 0.2,
});

export const resonancesForm = keptForm({
  /** Empty: your gap. */
  before: gap("Gap before"),
  after: gap("Gap after"),
  temperature: ROOM,
  thermometer: THERMOMETER,
  seconds: oneOf(SWEEP_SECONDS, "8"),
  /** What is mounted now. */
  side: oneOf<Side>(["before", "after"], "before"),
  /** What was before cannot be mounted again. */
  isCut: flag(false),
  keepsSound: flag(false),
  /** In the order in which they were kept. */
  takes: kept<readonly KeptSweep[]>([], readSweeps),
});
export type ResonancesNotes = KeptBy<typeof resonancesForm>;

export const withSweep = (takes: readonly KeptSweep[], take: KeptSweep): readonly KeptSweep[] => [
  ...takes,
  take,
];

export const withoutSweep = (takes: readonly KeptSweep[], id: string): readonly KeptSweep[] =>
  takes.filter((take) => take.id !== id);
