/** The verdicts of lips under a breath: the notes of two air columns, three times over. */
import { describe, expect, test } from "vitest";
import { breathOf } from "../../../src/study/blown/breath.ts";
import { closedSteps } from "../../../src/study/feel/felt.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { Feel } from "../../../workers/instrument/feel.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const instrument = new Instrument(setup, { modes: MODAL_COUNT });

describe("the worker for feel", () => {
  test("tells the verdicts of lips on the peaks as they are blown, where it is asked under a breath", async () => {
    const feel = new Feel();
    expect(await feel.load(setup)).toEqual({ ok: true });
    const question = { referenceGapMm: 2.5, litresPerMinute: 20 };
    const blown = new Instrument(setup, { like: instrument, breath: breathOf(setup, 30) });
    const steps = closedSteps(blown, question);
    let step = steps.next();
    while (!step.done) step = steps.next();
    expect(await feel.closed({ ...question, breath: 30, ticket: 1 }, () => {})).toEqual(step.value);
    expect(await feel.closed({ ...question, ticket: 2 }, () => {})).not.toEqual(step.value);
    expect(await feel.closed({ ...question, breath: 900, ticket: 3 }, () => {})).toEqual({
      refused: expect.stringContaining("too fast"),
    });
  });
});
