/** What a take is asked, for every family of instruments and every note that is offered. */
import { describe, expect, it } from "vitest";
import { listenForm } from "../../../../src/app/state/notes/listen.ts";
import { asked, isHeard } from "../../../../src/app/tasks/listen/question.ts";
import { rangeAsked } from "../../../../src/listen/take.ts";
import { TAKE_TESTS } from "../../../../src/listen/takeQuestion.ts";
import type { InstrumentKind } from "../../../../src/setup/instrumentKind.ts";
import { FAMILY } from "../../../../src/words/instruments.ts";

const kinds = Object.keys(FAMILY) as InstrumentKind[];

describe("the question of a take", () => {
  it("can be listened to, whatever note is chosen on whatever instrument", () => {
    let count = 0;
    for (const kind of kinds)
      for (let note = 1; note <= 12; note++)
        for (const test of TAKE_TESTS) {
          if (!isHeard(kind, note) || !isHeard(kind, note + 1)) continue;
          const { question } = asked({ ...listenForm.empty, test, note }, kind);
          expect(rangeAsked(question)).not.toBeNull();
          count++;
        }
    expect(count).toBeGreaterThan(500);
  });

  it("names the neighbours of slurs and attacks, and the lower note of a slur first", () => {
    const slur = asked({ ...listenForm.empty, test: "slur", note: 5, toNote: 4 }, "b-flat-trumpet");
    expect(slur).toMatchObject({ partial: 4, toPartial: 5, partials: [2, 3, 4, 5, 6, 7] });
    expect(slur.question.nearHz).toBeNull();
    expect(slur.question.notesHz).toHaveLength(6);
    const slot = asked(listenForm.empty, "b-flat-trumpet");
    expect(slot).toMatchObject({ partial: 4, toPartial: null, question: { notesHz: [] } });
    expect(slot.question.nearHz).toBeCloseTo(466.16, 2);
  });
});
