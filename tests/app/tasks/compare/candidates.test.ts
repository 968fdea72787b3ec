import { describe, expect, test } from "vitest";
import { readTable, withBore } from "../../../../src/app/state/bench/boreTable.ts";
import {
  candidateNotes,
  isSound,
  listed,
  takeIn,
  withOpened,
  withoutCandidate,
} from "../../../../src/app/state/bench/candidates.ts";
import { readDesign } from "../../../../src/app/state/bench/leadpipeDesign.ts";
import { readShape, shapeLike } from "../../../../src/app/state/bench/leadpipeShape.ts";
import { commonGap } from "../../../../src/app/state/bench/namedGaps.ts";
import {
  type CompareNotes,
  compareForm,
  MOST_CANDIDATES,
  shapePart,
  tablePart,
} from "../../../../src/app/state/notes/compare.ts";
import { cutForm } from "../../../../src/app/state/notes/cut.ts";
import { NO_NOTES, notesForAnother, readNotes } from "../../../../src/app/state/notes/notes.ts";
import type { Document } from "../../../../src/app/state/state.ts";
import { documentOf, Store } from "../../../../src/app/state/store.ts";
import { INVENTED } from "../../../../src/app/tasks/compare/candidates/inventedLeadpipes.ts";
import {
  comparable,
  questionOf,
  readError,
  readGoal,
} from "../../../../src/app/tasks/compare/compareAsked.ts";
import { leadpipeOfShape } from "../../../../src/setup/bore/leadpipeShape.ts";
import { gapMm } from "../../../../src/setup/setup.ts";
import { gapKind } from "../../../../src/words/gapKinds.ts";
import { demo } from "../../../acoustics/setups.ts";

const setup = demo();
const wider = {
  ...setup,
  leadpipe: {
    profileMm: [
      [0, 9],
      [240, 11.68],
    ] as const,
  },
};
const withCandidates = (part: Partial<CompareNotes> = {}) =>
  documentOf(setup, {
    ...NO_NOTES,
    compare: {
      ...compareForm.empty,
      candidates: [candidateNotes("Wider", "by hand", wider), candidateNotes("Same", "by hand", setup)],
      ...part,
    },
  });

describe("the notes on comparing", () => {
  test("come back from a file as they were; what cannot be read is empty", () => {
    const { notes } = withCandidates({ reference: 2, retune: null, goal: "2:1", withHold: true });
    const kept = readNotes(JSON.parse(JSON.stringify(notes))).compare;
    expect(kept).toEqual(notes.compare);
    for (const odd of [
      null,
      "x",
      3,
      { candidates: [1, { file: 2 }], reference: 9, retune: 99, table: 4, design: 1 },
    ])
      expect(compareForm.ofJson(odd)).toEqual(compareForm.empty);
    expect(notesForAnother(notes).compare).toBe(notes.compare);
  });

  test("bare lengths keep their meaning under another unit, tapers and the table their text", () => {
    const notes: CompareNotes = {
      ...compareForm.empty,
      error: "0.05",
      shape: { ...shapePart.empty, entry: "8.8", end: "0.46 in", taper: "0.01" },
      design: { ...compareForm.empty.design, smallest: "8", knots: "7" },
      table: { ...tablePart.empty, text: "0 8.8" },
    };
    expect(compareForm.shownIn(notes, "in")).toMatchObject({
      unit: "in",
      error: "0.05 mm",
      shape: { entry: "8.8 mm", end: "0.46 in", taper: "0.01" },
      design: { smallest: "8 mm", knots: "7" },
      table: { text: "0 8.8" },
    });
  });
});

describe("candidates", () => {
  test("are the open setup, then what was taken in, each the same setup every time it is asked for", () => {
    const document = withCandidates();
    const [open, first] = listed(document);
    expect(open).toMatchObject({ number: 1, name: setup.name, gapMm: 2.5 });
    expect(first).toMatchObject({ number: 2, name: "Wider", origin: "by hand", gapMm: 2.5 });
    expect(isSound(first) && first.setup.leadpipe.profileMm).toEqual([
      [0, 9],
      [240, 11.68],
    ]);
    const [, again] = listed(document);
    expect(isSound(first) && isSound(again) && first.setup === again.setup).toBe(true);
  });

  test("each at its own gap wherever the slider stands, or all at one of the job's, which is named", () => {
    const gapsOf = (document: Document) =>
      listed(document, commonGap(document, "mm")).map((one) => isSound(one) && [one.gapMm, one.gapIs]);
    const moved = (part: Partial<CompareNotes>) => ({ ...withCandidates(part), gapMm: 5 });
    const own = [2.5, gapKind(setup, 2.5)];
    expect(own[1]).not.toBe("what-if");
    expect(gapsOf(moved({}))).toEqual([own, own, own]);
    const whatIf = [5, "what-if"];
    expect(gapsOf(moved({ gap: "what-if" }))).toEqual([whatIf, whatIf, whatIf]);
    expect(gapsOf(moved({ gap: "yours" }))).toEqual([own, own, own]);
    // nothing is planned and no trial was decided: each is at its own again
    expect(gapsOf(moved({ gap: "planned" }))).toEqual([own, own, own]);
    expect(gapsOf(moved({ gap: "preferred" }))).toEqual([own, own, own]);
    const document = moved({ gap: "planned" });
    const planned = {
      ...document,
      notes: { ...document.notes, cut: { ...cutForm.empty, target: "2" } },
    };
    expect(gapsOf(planned)).toEqual([
      [2, "planned"],
      [2, "planned"],
      [2, "planned"],
    ]);
  });

  test("that older jobs held at the open setup's gap are held where the slider stands", () => {
    expect(compareForm.ofJson({ sameGap: true }).gap).toBe("what-if");
    expect(compareForm.ofJson({ sameGap: false }).gap).toBe("own");
    expect(compareForm.ofJson({ sameGap: true, gap: "yours" }).gap).toBe("yours");
  });

  test("at one gap, in words where a receiver cannot have it", () => {
    const document = { ...withCandidates({ gap: "what-if" }), gapMm: 23 };
    const shallow = { ...setup, receiver: { ...setup.receiver, depthMm: 22.5 } };
    const [, , , last] = listed(
      {
        ...document,
        notes: {
          ...document.notes,
          compare: {
            ...document.notes.compare,
            candidates: [...document.notes.compare.candidates, candidateNotes("Shallow", "", shallow)],
          },
        },
      },
      commonGap(document, "mm"),
    );
    expect(last).toMatchObject({ problem: expect.stringMatching(/no gap of this receiver/) });
  });

  test("that cannot be read are named with the reason and left out of the question", () => {
    const { notes } = withCandidates();
    const broken = { name: "Broken", origin: "", file: { format: "annulus-setup", version: 1, units: "mm" } };
    const compare = { ...notes.compare, candidates: [broken, ...notes.compare.candidates], reference: 1 };
    const all = listed(documentOf(setup, { ...notes, compare }));
    expect(all[1]).toMatchObject({ name: "Broken", problem: expect.stringMatching(/\w/) });
    const { variants, reference } = questionOf(all, compare, null);
    expect(variants.map(({ name }) => name)).toEqual([setup.name, "Wider", "Same"]);
    expect(reference).toBe(0);
    expect(comparable(all, { ...compare, reference: 3 }).reference).toBe(2);
  });

  test("removed, the reference stays who it was", () => {
    const { compare } = withCandidates({ reference: 2 }).notes;
    expect(withoutCandidate(compare, 2)).toMatchObject({ reference: 1, candidates: [{ name: "Same" }] });
    expect(withoutCandidate(compare, 3)).toMatchObject({ reference: 0, candidates: [{ name: "Wider" }] });
  });

  test("opened, one changes places with the open setup", () => {
    const document = { ...withCandidates(), gapMm: 4 };
    const [, first] = listed(document);
    if (!isSound(first)) throw new Error("a sound one is expected");
    const opened = withOpened(document, first);
    expect(opened.setup.name).toBe("Wider");
    expect(opened.gapMm).toBe(2.5);
    const [, before] = listed(opened);
    // the slider's place is no fact: the setup that was open keeps its own gap
    expect(before).toMatchObject({ name: setup.name, gapMm: 2.5 });
    expect(isSound(before) && before.setup.leadpipe).toEqual(setup.leadpipe);
  });

  test("opened where it was compared, its file's gap stays and the other is looked at", () => {
    const document = { ...withCandidates({ gap: "what-if" }), gapMm: 4 };
    const [, first] = listed(document, commonGap(document, "mm"));
    if (!isSound(first)) throw new Error("a sound one is expected");
    const opened = withOpened(document, first);
    expect([gapMm(opened.setup), opened.gapMm, opened.referenceGapMm]).toEqual([2.5, 4, 2.5]);
  });

  test("beyond what can be told apart are refused in words, and nothing is taken", () => {
    const store = new Store(documentOf(setup));
    const many = Array.from({ length: MOST_CANDIDATES }, () => candidateNotes("x", "", setup));
    expect(takeIn(store, many)).toBe(false);
    expect(store.state.message?.text).toMatch(/room for 11 more/);
    expect(store.state.document.notes.compare.candidates).toHaveLength(0);
    expect(takeIn(store, many.slice(1))).toBe(true);
    store.undo();
    expect(store.state.document.notes.compare.candidates).toHaveLength(0);
  });

  test("invented ones make instruments of the demo", () => {
    expect(INVENTED.length).toBeGreaterThan(0);
    for (const { name, shape } of INVENTED) {
      expect(name).toMatch(/\(invented\)$/);
      expect(withBore(setup, "leadpipe", leadpipeOfShape(shape), name)).toHaveProperty("setup");
    }
  });
});

describe("what is typed to take in another", () => {
  const typed = (
    text: string,
    said: Partial<typeof tablePart.empty.said> = {},
    part = tablePart.empty.part,
  ) => readTable({ ...tablePart.empty, part, text, said: { ...tablePart.empty.said, ...said } }, setup);

  test("a table is understood, overruled, or answered line by line", () => {
    expect(typed("")).toBeNull();
    const read = typed("0 0.172\n9.45 0.23");
    expect(read).toMatchObject({ table: { unit: { value: "in" }, measure: { value: "radius" } } });
    expect(read && "setup" in read && read.setup.leadpipe.profileMm[0][1]).toBeCloseTo(8.7376, 6);
    expect(typed("0 0.172\n9.45 0.23", { measure: "diameter", unit: "purple" })).toMatchObject({
      table: { unit: { value: "in" }, smallestMm: expect.closeTo(4.3688, 6) },
    });
    expect(typed("0 8.8\nx y\n240 11")).toMatchObject({
      table: null,
      problems: [expect.stringMatching(/^Line 2: /)],
    });
    expect(typed("8.8 0\n9 100\n11.68 240", { swapped: "yes" })).toHaveProperty("setup");
  });

  test("a mouthpiece wider than its shank is understood but makes no instrument", () => {
    const read = typed("0 17\n20 4\n80 12", {}, "mouthpiece");
    expect(read).toMatchObject({ table: { rows: 3 }, problems: [expect.stringMatching(/leaves no wall/)] });
  });

  test("how well single points of the old bore were known goes with it", () => {
    const known = {
      ...setup,
      uncertainties: {
        ...setup.uncertainties,
        "leadpipe.profile[4][1]": { standard: 0.01, degreesOfFreedom: 5 },
      },
    };
    const made = withBore(
      known,
      "leadpipe",
      [
        [0, 8.8],
        [240, 11.68],
      ],
      "new",
    );
    expect(made).toHaveProperty("setup");
    expect("setup" in made && Object.keys(made.setup.uncertainties)).toContain("leadpipe.diameters");
    expect("setup" in made && Object.keys(made.setup.uncertainties)).not.toContain("leadpipe.profile[4][1]");
  });

  test("dimensions make a leadpipe, or say beside each what is wrong", () => {
    const shape = { ...shapePart.empty, entry: "8.8", end: "0.46 in", length: "240" };
    expect(readShape(shape, "mm").profileMm).toEqual([
      [0, 8.8],
      [240, expect.closeTo(11.684, 9)],
    ]);
    expect(readShape({ ...shape, taper: "steep", entry: "wide" }, "mm")).toMatchObject({
      profileMm: null,
      problems: {
        taper: expect.stringMatching(/is not a taper/),
        entry: expect.stringMatching(/not a length/),
      },
    });
    expect(readShape({ ...shape, end: "5" }, "mm").problem).toMatch(/narrower than the narrowest place/);
    expect(readShape(shapePart.empty, "mm")).toEqual({ problems: {}, problem: "", profileMm: null });
    const like = readShape(shapeLike(wider.leadpipe.profileMm, "in"), "in").profileMm!;
    expect(like[0][1]).toBeCloseTo(9, 2);
    expect(like.at(-1)![0]).toBeCloseTo(240, 2);
  });
});

describe("what is asked of them", () => {
  test("a goal is read, or refused naming what is known", () => {
    expect(readGoal("  ")).toEqual({ goal: null, problem: "" });
    expect(readGoal("hold4").goal!.symbols).toEqual(["hold4"]);
    expect(readGoal("sents2").problem).toMatch(/known are f1 to f12/);
    const all = listed(withCandidates());
    expect(questionOf(all, compareForm.empty, readGoal("hold4").goal).withNotes).toBe(true);
    expect(questionOf(all, { ...compareForm.empty, retune: null }, readGoal("cents4").goal)).toMatchObject({
      withNotes: false,
      variants: { length: 3 },
    });
    expect(questionOf(all, { ...compareForm.empty, retune: null }, null)).not.toHaveProperty("retune");
  });

  test("an error of manufacture, in either unit", () => {
    expect(readError({ ...compareForm.empty, error: "" }).errorMm).toBe(0.05);
    expect(readError({ ...compareForm.empty, unit: "in", error: "0.002" }).errorMm).toBeCloseTo(0.0508, 9);
    expect(readError({ ...compareForm.empty, error: "-1" })).toMatchObject({
      errorMm: 0.05,
      problem: expect.stringMatching(/give an error/),
    });
    expect(readError({ ...compareForm.empty, error: "fine" }).problem).toMatch(/not a length/);
  });

  test("a design's goal and limits", () => {
    const read = readDesign(
      { ...compareForm.empty.design, goal: "cents2=0", smallest: "0.3 in" },
      setup,
      "mm",
    );
    expect(read.options).toMatchObject({
      goal: { targets: [{ quantity: "cents", n: 2, target: 0 }] },
      limits: {
        knots: 6,
        smallestMm: expect.closeTo(7.62, 9),
        largestMm: expect.closeTo(12.68, 9),
        holdsEnd: true,
      },
      restarts: 3,
    });
    const wrong = readDesign(
      { ...compareForm.empty.design, goal: "sents2=0", knots: "2", largest: "wide", starts: "1.5" },
      setup,
      "mm",
    );
    expect(wrong.options).toBeNull();
    expect(wrong.problems).toMatchObject({
      goal: expect.stringMatching(/not known/),
      knots: expect.stringMatching(/4 to 20/),
      largest: expect.stringMatching(/not a length/),
      starts: expect.stringMatching(/whole number/),
    });
    expect(readDesign(compareForm.empty.design, setup, "mm")).toMatchObject({ options: null, problems: {} });
  });

  test("a design with the gap among what may change, and one like another candidate", () => {
    const goal = { ...compareForm.empty.design, goal: "f5=583" };
    expect(readDesign(goal, setup, "mm").options!.limits.gapMm).toBeNull();
    const gaps = (written: Partial<typeof compareForm.empty.design>, unit: "mm" | "in" = "mm") =>
      readDesign({ ...goal, movesGap: true, ...written }, setup, unit);
    expect(gaps({}).options!.limits.gapMm).toEqual([0, 8]);
    expect(gaps({ narrowestGap: "0.04", widestGap: "5 mm" }, "in").options!.limits.gapMm).toEqual([1.016, 5]);
    expect(gaps({ narrowestGap: "0" }).options!.limits.gapMm).toEqual([0, 8]);
    for (const [written, problems] of [
      [{ narrowestGap: "-1" }, { narrowestGap: expect.stringMatching(/cannot be; give 0 or a length/) }],
      [{ widestGap: "25" }, { widestGap: expect.stringMatching(/receiver is 24\.50 mm deep/) }],
      [
        { narrowestGap: "4", widestGap: "3" },
        { widestGap: expect.stringMatching(/more than the narrowest, 4\.00 mm/) },
      ],
    ] as const)
      expect(gaps(written)).toMatchObject({ options: null, problems });
    const like = { setup, gapMm: 4 };
    const liked = { ...compareForm.empty.design, goal: "nonsense", like: 2 };
    expect(readDesign(liked, setup, "mm", like)).toMatchObject({ problems: {}, options: { goal: like } });
    expect(readDesign(liked, setup, "mm", null).options).toBeNull();
  });

  test("what a design shall be like stays it when others are removed, and is nobody when it goes itself", () => {
    const { compare } = withCandidates().notes;
    const liked = { ...compare, design: { ...compareForm.empty.design, like: 2 } };
    expect(withoutCandidate(liked, 2).design.like).toBe(1);
    expect(withoutCandidate(liked, 3).design.like).toBeNull();
    expect(compareForm.ofJson(JSON.parse(JSON.stringify(liked)))).toEqual(liked);
    expect(compareForm.ofJson({ ...liked, candidates: [] }).design.like).toBeNull();
  });
});
