/** Under which name the sounds of kept takes stand among the recordings; trials have their ids. */
export const RECORDINGS_OF = "listen";
