/** How the page asks what follows a gap: what is compared with is fetched once, and stays one and the same. */
import { expect, test } from "vitest";
import type { Methods } from "../../../src/app/work/connection.ts";
import { Explorer, type Exploring } from "../../../src/app/work/exploring.ts";
import type { ExploredUnderBreath } from "../../../src/study/blown/underBreath.ts";
import { Model } from "../../../workers/instrument/model.ts";
import { someSetup } from "../someSetup.ts";

const setup = someSetup();
const question: Exploring = {
  setup,
  gapMm: 2,
  referenceGapMm: 2.5,
  resonance: 4,
  retune: null,
  litresPerMinute: 0,
};

test("what is compared with is asked for once, and is one object while only the chosen gap moves", async () => {
  const model = new Model();
  await model.load(setup);
  const wasKnown: unknown[] = [];
  const watched = {
    picture: (...asked: Parameters<Model["picture"]>) => {
      wasKnown.push(asked[4]);
      // as it comes through a port: no object twice
      return model.picture(...asked).then((answer) => structuredClone(answer));
    },
    judge: model.judge.bind(model),
  } as unknown as Methods<Model>;
  const explorer = new Explorer();
  const asked = async (change: Partial<Exploring>): Promise<ExploredUnderBreath> => {
    const answer = await explorer.ask(watched, { ...question, ...change }, () => {});
    if ("refused" in answer) throw new Error(answer.refused);
    return answer;
  };
  const first = await asked({});
  const moved = await asked({ gapMm: 1.5 });
  expect(moved.chosen.gapMm).toBe(1.5);
  expect(moved.reference).toBe(first.reference);
  expect(moved.chosen.curve.frequencies).toBe(first.reference.curve.frequencies);
  const back = await asked({ gapMm: 2.5 });
  expect(back.chosen).toBe(first.reference);
  const other = await asked({ referenceGapMm: 3 });
  expect(other.reference.gapMm).toBe(3);
  const again = await asked({ setup: { ...setup, body: { ...setup.body } } });
  expect(again.reference).not.toBe(first.reference);
  expect(wasKnown).toEqual([false, true, true, false, false]);
});
