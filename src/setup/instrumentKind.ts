/** The instruments a setup may be of, as the trade tells them apart: players read other notes on each. */

/** All of them, in the order of a list; each has a stand-in. */
export const INSTRUMENT_KINDS = [
  "b-flat-trumpet",
  "c-trumpet",
  "e-flat-trumpet",
  "cornet",
  "flugelhorn",
  "tenor-trombone-small",
  "tenor-trombone-large",
  "bass-trombone",
  "horn-f",
  "horn-b-flat",
  "euphonium",
  "tuba",
] as const;

export type InstrumentKind = (typeof INSTRUMENT_KINDS)[number];
