import { expose, wrap } from "comlink";
import { describe, expect, test } from "vitest";
import { NORMAL_COVERAGE } from "../../../src/bench/measure/combinedUncertainty.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { UnderBreath } from "../../../src/study/blown/underBreath.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Model } from "../../../workers/instrument/model.ts";
import { exampleFile } from "../../setup/example.ts";

const setup = readSetup(exampleFile());
const gapsMm = [0, 1, 2.54, 4];

async function loaded(): Promise<Model> {
  const model = new Model();
  expect(await model.load(setup)).toEqual({ ok: true });
  return model;
}

describe("the model's worker", () => {
  test("answers what the study answers", async () => {
    const model = await loaded();
    const study = new Exploration(setup);
    for (const [gapMm, resonance] of [
      [1.9, 4],
      [2.54, 2],
      [1.9, 5],
    ]) {
      expect(await model.picture(gapMm, 2.54, resonance)).toEqual(study.picture(gapMm, 2.54, resonance));
      expect(await model.judge(gapMm, 2.54, 4)).toEqual(study.judge(gapMm, 2.54, 4));
    }
  });

  test("does not send again what the page has to compare with", async () => {
    const model = await loaded();
    const { reference, ...rest } = new Exploration(setup).picture(1.9, 2.54, 4);
    expect(reference.gapMm).toBe(2.54);
    expect(await model.picture(1.9, 2.54, 4, 0, true)).toEqual({ ...rest, reference: null });
  });

  test("sweeps as the study does, telling progress gap by gap", async () => {
    const model = await loaded();
    const told: number[][] = [];
    const options = { gapsMm, referenceGapMm: 2.54, retune: 4 };
    const swept = await model.sweep({ ...options, ticket: 1 }, (done, of) => told.push([done, of]));
    expect(swept).toEqual(gapSweep(new Exploration(setup).instrument, options));
    expect(told).toEqual(gapsMm.map((_, i) => [i + 1, gapsMm.length]));
  });

  test("answers under a breath what the study answers, and in still air again what it did before", async () => {
    const model = await loaded();
    const study = new UnderBreath(setup, NORMAL_COVERAGE);
    expect(await model.picture(1.9, 2.54, 4, 20)).toEqual(await study.picture(20, 1.9, 2.54, 4));
    expect(await model.judge(1.9, 2.54, 4, 20)).toEqual(await study.judge(20, 1.9, 2.54, 4));
    expect(await model.breathEffect(20, 1.9, 2.54)).toEqual(await study.effect(20, 1.9, 2.54));
    const options = { gapsMm, referenceGapMm: 2.54 };
    const blown = await study.at(20);
    expect(await model.sweep({ ...options, litresPerMinute: 20, ticket: 1 }, () => {})).toEqual(
      gapSweep(blown.instrument, options),
    );
    const still = new Exploration(setup);
    expect(await model.picture(1.9, 2.54, 4)).toEqual(still.picture(1.9, 2.54, 4));
    expect(await model.judge(1.9, 2.54, 4)).toEqual(still.judge(1.9, 2.54, 4));
    const refused = { refused: expect.stringMatching(/too fast/) };
    expect(await model.picture(1.9, 2.54, 4, 900)).toEqual(refused);
    expect(await model.judge(1.9, 2.54, 4, 900)).toEqual(refused);
    expect(await model.sweep({ ...options, litresPerMinute: 900, ticket: 2 }, () => {})).toEqual(refused);
  });

  test("a newer ticket, a stop and another setup end a sweep", async () => {
    for (const overtake of [
      (model: Model) => model.sweep({ gapsMm: [1], ticket: 2 }, () => {}),
      (model: Model) => model.stop(1),
      (model: Model) => model.load(setup),
    ]) {
      const model = await loaded();
      let steps = 0;
      const first = model.sweep({ gapsMm, ticket: 1 }, () => {
        steps++;
        if (steps === 1) void overtake(model);
      });
      expect(await first).toBeNull();
      expect(steps).toBe(1);
    }
  });

  test("other questions have their turn while it sweeps", async () => {
    const model = await loaded();
    const order: string[] = [];
    const sweep = model.sweep({ gapsMm, ticket: 1 }, (done) => {
      order.push(`${done}`);
      if (done === 1) void model.judge(1, 2, 4).then(() => order.push("judged"));
    });
    await sweep;
    expect(order.slice(0, 3)).toEqual(["1", "judged", "2"]);
  });

  test("says why it refuses, as data", async () => {
    const model = await loaded();
    const noGap = { refused: expect.stringContaining("no gap of this receiver") };
    expect(await model.picture(99, 2.54, 4)).toEqual(noGap);
    expect(await model.judge(99, 2.54, 4)).toEqual(noGap);
    expect(await model.sweep({ gapsMm: [1], retune: 40, ticket: 1 }, () => {})).toEqual({
      refused: expect.stringContaining("resonance 40"),
    });
    expect(await new Model().judge(1, 1, null)).toEqual({ refused: "no setup is loaded" });
  });

  test("gives away no array that it needs again", async () => {
    const { port1, port2 } = new MessageChannel();
    expose(await loaded(), port1);
    const remote = wrap<Model>(port2);
    const study = new Exploration(setup);
    for (const gapMm of [2.54, 2, 2.54, 2])
      expect(await remote.picture(gapMm, 2.54, 4)).toEqual(study.picture(gapMm, 2.54, 4));
    port1.close();
    port2.close();
  });
});
