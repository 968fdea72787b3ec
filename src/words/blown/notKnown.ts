/** What a steady one-dimensional estimate of the stream cannot know, to be said wherever its numbers are. */
export const NOT_KNOWN = [
  "When a note sounds the flow pulses and the lips' opening, not the bore, takes most of the pressure.",
  "Boundary layers are followed in the throat alone; elsewhere profiles of speed are those of a long pipe, and swirl and bends are left out.",
  "The edge between cup and throat has bounds from rounded to sharp; a burr elsewhere changes a loss by more than the gap does.",
  "Loss coefficients were measured at higher Reynolds numbers and are good to some 20 % here.",
] as const;
