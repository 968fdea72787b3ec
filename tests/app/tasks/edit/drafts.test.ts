import fc from "fast-check";
import { expect, test } from "vitest";
import { applyText } from "../../../../src/app/form/setup/edits.ts";
import { afterRows, type Draft, inUnit, standing, take } from "../../../../src/app/tasks/edit/drafts.ts";
import { insertRowAfter } from "../../../../src/app/tasks/edit/rows.ts";
import type { Setup } from "../../../../src/setup/setup.ts";
import { withGap } from "../../../../src/setup/withGap.ts";
import { someSetup } from "../../someSetup.ts";

const setup = someSetup();
type Typed = readonly [path: string, text: string];

/** One after the other, as a person would. */
const typing = (entries: readonly Typed[], of: Setup = setup) =>
  entries.reduce<{ setup: Setup; drafts: readonly Draft[] }>(
    (before, [path, text]) => take(before.setup, before.drafts, { path, text, unit: "mm" }),
    { setup: of, drafts: [] },
  );

test("what is refused stays as it was typed, with the reason, and the setup as it was", () => {
  const { setup: after, drafts } = typing([["receiver.depth", "deep"]]);
  expect(after).toBe(setup);
  expect(drafts).toMatchObject(
    [{ path: "receiver.depth", text: "deep", message: /not a length/ }].map((draft) => ({
      ...draft,
      message: expect.stringMatching(draft.message),
    })),
  );
  expect(
    typing([
      ["receiver.depth", "deep"],
      ["receiver.depth", "25"],
    ]).drafts,
  ).toEqual([]);
  expect(
    typing([
      ["receiver.depth", "deep"],
      ["receiver.depth", "24.54"],
    ]),
  ).toEqual({ setup, drafts: [] });
});

test("entries that are wrong alone are taken when the next makes them right", () => {
  const deeper = typing([
    ["mouthpiece.insertion", "27"],
    ["receiver.depth", "30"],
  ]);
  expect(deeper.drafts).toEqual([]);
  expect(deeper.setup).toMatchObject({ mouthpiece: { insertionMm: 27 }, receiver: { depthMm: 30 } });
  const breath = typing([
    ["air.breath.temperature", "35"],
    ["air.breath.reach", "300"],
  ]);
  expect(breath.setup.air).toMatchObject({ breath: { temperatureC: 35, reachMm: 300 } });
  const without = typing(
    [
      ["air.breath.reach", ""],
      ["air.breath.temperature", ""],
    ],
    breath.setup,
  );
  expect(without).toEqual({ setup, drafts: [] });
});

test("one that stays wrong does not hold up the others", () => {
  const { setup: after, drafts } = typing([
    ["mouthpiece.cupDepth", "none"],
    ["mouthpiece.insertion", "99"],
    ["air.breath.temperature", "35"],
    ["air.breath.reach", "300"],
    ["receiver.depth", "25"],
  ]);
  expect(drafts.map(({ path }) => path).sort()).toEqual(["mouthpiece.cupDepth", "mouthpiece.insertion"]);
  expect(after).toMatchObject({ air: { breath: { reachMm: 300 } }, receiver: { depthMm: 25 } });
});

test("a row emptied cell by cell is taken out", () => {
  const { setup: after, drafts } = typing([
    ["body.profile[1][0]", ""],
    ["body.profile[1][1]", " "],
  ]);
  expect(drafts).toEqual([]);
  expect(after.body.profileMm).toEqual([
    [0, 11.68],
    [1030, 122],
  ]);
  const last = typing([
    ["leadpipe.profile[0][0]", ""],
    ["leadpipe.profile[0][1]", ""],
  ]);
  expect(last.setup).toBe(setup);
  expect(last.drafts[1].message).toContain("2 to 5000");
});

test("drafts go when their place was changed from elsewhere, and stay with their row", () => {
  const { drafts } = typing([
    ["mouthpiece.insertion", "30"],
    ["leadpipe.profile[1][1]", "-1"],
  ]);
  expect(standing(setup, drafts)).toBe(drafts);
  expect(standing(withGap(setup, 1), drafts).map(({ path }) => path)).toEqual(["leadpipe.profile[1][1]"]);
  const inserted = insertRowAfter(setup, "leadpipe", 0);
  if (!("setup" in inserted)) throw new Error("refused");
  const moved = afterRows(inserted.setup, drafts, "leadpipe", 1, 1);
  expect(moved.map(({ path }) => path)).toEqual(["mouthpiece.insertion", "leadpipe.profile[2][1]"]);
  expect(standing(inserted.setup, moved)).toBe(moved);
  expect(standing(inserted.setup, drafts)).toHaveLength(1);
  expect(afterRows(setup, moved, "leadpipe", 2, -1)).toHaveLength(1);
});

test("in another unit a draft keeps the length it was typed as", () => {
  const { drafts } = typing([
    ["mouthpiece.insertion", "30"],
    ["receiver.depth", "deep"],
    ["air.humidity", "130"],
  ]);
  expect(inUnit(drafts, "in").map(({ text }) => text)).toEqual(["30 mm", "deep", "130"]);
  expect(inUnit(drafts, "mm")).toBe(drafts);
});

test("any typing, in any order, keeps a setup that stands and every refusal in words", () => {
  const entry = fc.tuple(
    fc.constantFrom(
      "mouthpiece.insertion",
      "receiver.depth",
      "receiver.mouthDiameter",
      "mouthpiece.cupDepth",
      "air.breath.temperature",
      "air.breath.reach",
      "leadpipe.profile[0][0]",
      "leadpipe.profile[0][1]",
      "leadpipe.profile[1][0]",
      "body.profile[2][1]",
    ),
    fc.constantFrom("", "-1", "0", "9", "22", "30", "200", "wide", "1/8 in"),
  );
  fc.assert(
    fc.property(fc.array(entry, { maxLength: 12 }), (entries) => {
      const { setup: after, drafts } = typing(entries);
      expect(new Set(drafts.map(({ path }) => path)).size).toBe(drafts.length);
      for (const { path, text, unit, message } of drafts) {
        expect(message).not.toBe("");
        expect(applyText(after, { path, text, unit })).toHaveProperty("problem");
      }
      const [path, text] = entries.at(-1) ?? ["name", setup.name];
      const last = drafts.find((draft) => draft.path === path);
      if (last) expect(last.text).toBe(text);
    }),
    { numRuns: 150 },
  );
});
