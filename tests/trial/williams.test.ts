import { randomLcg } from "d3";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sealedCodes } from "../../src/trial/codes.ts";
import { sealTrial } from "../../src/trial/seal.ts";
import { balancedRepeats, playingOrder, williamsSquares } from "../../src/trial/williams.ts";
import { gapItems } from "./players.ts";

/** How often each item follows each other within a row, and stands at each place. */
function counts(rows: readonly (readonly number[])[], n: number) {
  const follows = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const stands = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (const row of rows)
    row.forEach((item, place) => {
      stands[item][place]++;
      if (place > 0) follows[row[place - 1]][item]++;
    });
  return { follows, stands };
}

const sizes = fc.integer({ min: 3, max: 7 });
const seeds = fc.nat(2 ** 32 - 1);

describe("the playing order", () => {
  test("a whole design, and any number of whole designs as drawn, balance place and predecessor", () => {
    fc.assert(
      fc.property(sizes, seeds, fc.integer({ min: 1, max: 2 }), (n, seed, times) => {
        const orders = [
          williamsSquares(n).flat(),
          playingOrder(n, times * balancedRepeats(n), randomLcg(seed)),
        ] as const;
        for (const rows of orders) {
          const each = rows.length / n;
          const { follows, stands } = counts(rows, n);
          expect(stands.flat().every((count) => count === each)).toBe(true);
          follows.forEach((row, before) => {
            row.forEach((count, after) => {
              expect(count).toBe(before === after ? 0 : each);
            });
          });
        }
      }),
    );
  });

  test("every repeat has every item once, however few", () => {
    fc.assert(
      fc.property(sizes, fc.integer({ min: 2, max: 14 }), seeds, (n, repeats, seed) => {
        const rows = playingOrder(n, repeats, randomLcg(seed));
        expect(rows).toHaveLength(repeats);
        for (const row of rows) expect([...row].sort()).toEqual(Array.from({ length: n }, (_, i) => i));
      }),
    );
  });

  test("no item is played twice in a row while there is a choice", () => {
    fc.assert(
      fc.property(sizes, seeds, (n, seed) => {
        const order = playingOrder(n, n - 1, randomLcg(seed)).flat();
        order.forEach((item, i) => {
          expect(item).not.toBe(order[i - 1]);
        });
      }),
    );
  });

  test("any item may come first, about equally often", () => {
    const random = randomLcg(5);
    const first = [0, 0, 0, 0, 0];
    for (let i = 0; i < 2000; i++) first[playingOrder(5, 2, random)[0][0]]++;
    // 400 each, standard deviation 18
    for (const count of first) expect(Math.abs(count - 400)).toBeLessThan(80);
  });
});

describe("sealed codes", () => {
  test("are all different, cannot be mistaken for one another and are drawn anew with another seed", () => {
    const codes = sealedCodes(98, randomLcg(3));
    expect(new Set(codes).size).toBe(98);
    expect(codes.length).toBeGreaterThan(0);
    for (const code of codes) expect(code).toMatch(/^[CFHJKLMRTWXY][2-79][CFHJKLMRTWXY]$/);
    expect(sealedCodes(98, randomLcg(4))).not.toEqual(codes);
    expect(sealedCodes(98, randomLcg(3))).toEqual(codes);
  });

  test("say nothing of the order: sorted by code, the turns' places rise as often as they fall", () => {
    const random = randomLcg(11);
    let [rises, pairs] = [0, 0];
    for (let i = 0; i < 300; i++) {
      const codes = sealedCodes(12, random);
      const places = codes.map((_, place) => place).sort((a, b) => (codes[a] < codes[b] ? -1 : 1));
      places.slice(1).forEach((place, j) => {
        if (place > places[j]) rises++;
        pairs++;
      });
    }
    expect(Math.abs(rises / pairs - 0.5)).toBeLessThan(0.04);
  });
});

test("a plan that is no trial is refused in words", () => {
  const plan = { id: "", player: "", items: gapItems(1, 2, 3), repeats: 3, passages: "", difference: 20 };
  expect(sealTrial(plan, 1).turns).toHaveLength(9);
  expect(() => sealTrial({ ...plan, items: gapItems(1, 2) }, 1)).toThrow(/3 to 7 items; here are 2/);
  expect(() => sealTrial({ ...plan, repeats: 1.5 }, 1)).toThrow(/1.5 is no number of repeats/);
});
