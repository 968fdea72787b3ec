/** Whose job it is, in words, the same on the page's head and on every paper. */

/** Of the setup that stands in for the player's instrument. */
export const computedOnWords = (setupName: string): string => `computed on: ${setupName}`;
