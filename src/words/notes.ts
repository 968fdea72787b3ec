/** Notes as they are called, at concert pitch. */
const noteNames = ["C", "D♭", "D", "E♭", "E", "F", "G♭", "G", "A♭", "A", "B♭", "B"];
const a4 = { number: 69, hz: 440 };

export interface Note {
  readonly name: string;
  /** Of the equally tempered note. */
  readonly hz: number;
  /** How far above it the frequency lies. */
  readonly cents: number;
}

/** What a note is called, by its number in MIDI (A4 is 69). */
export const noteName = (number: number): string =>
  `${noteNames[((number % 12) + 12) % 12]}${Math.floor(number / 12) - 1}`;

/** Its frequency, equally tempered. */
export const noteHz = (number: number): number => a4.hz * 2 ** ((number - a4.number) / 12);

/** The equally tempered note nearest to a frequency, at concert pitch. */
export function nearestNote(hz: number): Note {
  const exact = a4.number + 12 * Math.log2(hz / a4.hz);
  const number = Math.round(exact);
  return { name: noteName(number), hz: noteHz(number), cents: 100 * (exact - number) };
}
