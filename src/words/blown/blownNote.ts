/** Beside what is told of blown peaks without naming them. */
export const blownNote = (litresPerMinute: number): string =>
  `Pitch, peaks and slots here are blown, with ${litresPerMinute} L/min of breath.`;
