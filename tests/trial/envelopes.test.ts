import { describe, expect, it } from "vitest";
import { envelopeLetters, envelopeOf, withEnvelopesOpen } from "../../src/trial/envelopes.ts";
import { readTrial } from "../../src/trial/readTrial.ts";
import { sealTrial } from "../../src/trial/seal.ts";
import { slipWords } from "../../src/words/trial/envelopes.ts";
import { demo } from "../acoustics/setups.ts";
import { gapItems } from "./players.ts";

const plan = { id: "t", player: "", items: gapItems(1, 2, 3, 4), repeats: 4, passages: "", difference: 20 };
const alone = sealTrial({ ...plan, alone: true }, 7);

describe("a trial played alone", () => {
  it("names an envelope at every turn, each once in every repeat, and no turn as another", () => {
    expect(new Set(alone.turns.map(({ code }) => code)).size).toBe(16);
    for (let first = 0; first < 16; first += 4)
      expect(
        alone.turns
          .slice(first, first + 4)
          .map(envelopeOf)
          .sort(),
      ).toEqual([...envelopeLetters(4)].sort());
  });

  it("draws the same order of envelopes whatever lies in them: nothing is known of it before they are opened", () => {
    const other = sealTrial({ ...plan, items: gapItems(9, 8, 7, 6), alone: true }, 7);
    expect(other.turns).toEqual(alone.turns);
  });

  it("is, once they are opened, a trial of what they held", () => {
    const open = withEnvelopesOpen(alone, [2, 0, 3, 1]);
    const held = (letter: string) =>
      new Set(open.turns.filter((turn) => envelopeOf(turn) === letter).map(({ item }) => item));
    expect(envelopeLetters(4).map((letter) => [...held(letter)])).toEqual([[2], [0], [3], [1]]);
    expect(readTrial(JSON.parse(JSON.stringify(open)))).toEqual(open);
  });

  it("refuses envelopes of which two held the same", () => {
    expect(() => withEnvelopesOpen(alone, [0, 0, 1, 2])).toThrow(/no two hold the same/);
    expect(() => withEnvelopesOpen(alone, [0, 1, 2])).toThrow();
  });

  it("comes back from a file as played alone, and one with an assistant does not", () => {
    expect(readTrial(JSON.parse(JSON.stringify(alone)))).toEqual(alone);
    expect(readTrial(JSON.parse(JSON.stringify(sealTrial(plan, 7))))).not.toHaveProperty("alone");
  });
});

describe("a slip", () => {
  it("says how a gap is made: 2 t / taper for a wrap, and that none makes it narrower", () => {
    const setup = demo();
    const ownMm = setup.receiver.depthMm - setup.mouthpiece.insertionMm;
    const item = (gapMm: number) => ({ name: "", gapMm });
    // 0.4 mm at 1:20 is 0.010 mm all round (the trade's figure)
    expect(slipWords(item(ownMm + 0.4), setup, "mm")).toMatch(/^A wrap 0\.010 mm thick/);
    expect(slipWords(item(ownMm), setup, "mm")).toMatch(/no wrap/);
    expect(slipWords(item(ownMm - 0.4), setup, "mm")).toMatch(/only ever widens/);
    expect(slipWords({ name: "old shank", gapMm: null }, setup, "mm")).toBe("Put in: old shank.");
  });
});
