import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { listed, words } from "../../src/record/listing.ts";
import { someJob } from "./jobs.ts";

const ALL = { status: "all", search: "", sort: "changed" } as const;
const rows = [
  someJob({
    title: "Jürgen, second visit",
    player: "Øre",
    mouthpiece: "Straße 3C",
    changed: "2026-01-01T00:00:00.000Z",
  }),
  someJob({ title: "anna 10", player: "", status: "archived", changed: "2026-01-03T00:00:00.000Z" }),
  someJob({ title: "Anna 9", player: "Łucja", changed: "2026-01-02T00:00:00.000Z" }),
];
const titles = (wanted: Partial<Parameters<typeof listed>[1]>) =>
  listed(rows, { ...ALL, ...wanted }).map(({ title }) => title);

describe("a list of jobs", () => {
  test("is searched by how words begin, without accents, in any order, over all that is named", () => {
    for (const search of ["jurgen", "JÜR", "visit sec", "ore", "strasse", "3c kettle jur", "stra"])
      expect(titles({ search }).filter((title) => title.startsWith("J"))).toEqual(
        search.includes("kettle") ? [] : ["Jürgen, second visit"],
      );
    expect(titles({ search: "lucja" })).toEqual(["Anna 9"]);
    expect(titles({ search: "urgen" })).toEqual([]);
    expect(titles({ search: " ,- " })).toHaveLength(3);
  });

  test("is filtered by status", () => {
    expect(titles({ status: "archived" })).toEqual(["anna 10"]);
    expect(titles({ status: "open" })).toEqual(["Anna 9", "Jürgen, second visit"]);
  });

  test("is sorted newest first, or by name with numbers as numbers and the nameless last", () => {
    expect(titles({})).toEqual(["anna 10", "Anna 9", "Jürgen, second visit"]);
    expect(titles({ sort: "title" })).toEqual(["Anna 9", "anna 10", "Jürgen, second visit"]);
    expect(titles({ sort: "player" }).at(-1)).toBe("anna 10");
  });

  test("every word of a job finds it, and its words are stable", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (title) => {
        const job = someJob({ title });
        for (const word of words(title)) {
          expect(listed([job], { ...ALL, search: word.slice(0, 3) })).toEqual([job]);
          expect(words(word)).toEqual([word]);
        }
      }),
    );
  });
});
