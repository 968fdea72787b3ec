/** Under which name the sounds of kept sweeps stand among the recordings. */
export const SWEEPS_OF = "resonances";
