/** What the job's sweeps of the instrument tell, before against after. */
import { type SweptChange, sweptChange } from "../../../study/swept/sweptChange.ts";
import type { Notes } from "../notes/notes.ts";

/** null while there are not takes of both. */
export const sweptIn = ({ resonances }: Pick<Notes, "resonances">): SweptChange | null =>
  sweptChange(resonances.takes);
