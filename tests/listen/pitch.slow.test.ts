import { it } from "vitest";
import { expectAnyNoteHeard } from "./anyNote.ts";

it("pitch of a held note is within a fifth of a cent and never an octave off, from the tuba's pedals to a trumpet's top, whatever its harmonics", () => {
  expectAnyNoteHeard(40);
});
