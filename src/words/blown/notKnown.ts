/** What a steady one-dimensional estimate of the stream cannot know, to be said wherever its numbers are. */
export const NOT_KNOWN = [
  "When a note sounds the flow pulses and the lips' opening, not the bore, takes most of the pressure.",
  "Profiles of speed are taken as even at every place: developing boundary layers, swirl and bends are left out.",
  "Edges are as sharp or as slanted as the profile draws them; a burr or a rounding changes a loss by more than the gap does.",
  "Loss coefficients were measured at higher Reynolds numbers and are good to some 20 % here.",
] as const;
