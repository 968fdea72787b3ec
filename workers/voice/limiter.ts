/** No sound leaves louder than this, of full scale, whatever comes in. */
export const LIMIT = 0.5;

/** x while it is small, never beyond the limit, without a corner; 0 for what is no number. */
export const softlyLimited = (x: number): number => (Number.isNaN(x) ? 0 : LIMIT * Math.tanh(x / LIMIT));
