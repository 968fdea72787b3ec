// @vitest-environment jsdom

import { describe, expect, test } from "vitest";
import { type PlayPad, placePoint, playPad, playPadTable } from "../../../src/charts/drawings/playPad.ts";
import { phraseChart, phraseFinding, phraseTable } from "../../../src/charts/plots/phraseChart.ts";
import { PHRASES, perform, type SpokenNote } from "../../../src/study/feel/phrase.ts";
import { slotsAt } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { noteLabel } from "../../../src/words/instruments.ts";
import { description, laptop, setup, text } from "../examples.ts";

const instrument = new Instrument(setup, { modes: 16 });
const phone = { ...laptop, width: 340, height: 290 };
const slots = (gapMm: number) => slotsAt(instrument, gapMm, { referenceGapMm: 2.5 });
const pad: PlayPad = {
  rangeHz: [174, 1320],
  mostPressure: 16_000,
  chosenGapMm: 5,
  referenceGapMm: 2.5,
  resonancesHz: instrument.modes(5).map(({ frequencyHz }) => frequencyHz),
  chosen: slots(5),
  reference: slots(2.5),
};
const numbersIn = (svg: SVGSVGElement) => svg.outerHTML.replace(/<desc>.*<\/desc>/, "");

describe("the pad", () => {
  test("draws every note's slot from its threshold up, the reference's dashed", () => {
    const { svg, x, y } = playPad(pad, laptop);
    const tongues = [...svg.querySelectorAll("[data-part=slot]")];
    expect(tongues).toHaveLength(9);
    expect(svg.querySelectorAll("[data-part=reference-slot][stroke-dasharray]")).toHaveLength(9);
    tongues.forEach((tongue, i) => {
      const { onset, slot } = pad.chosen!.notes[i];
      const [tip, low] = tongue
        .getAttribute("d")!
        .slice(1)
        .split("L")
        .map((point) => point.split(",").map(Number));
      expect(x.invert(tip[0])).toBeCloseTo(onset!.lipHz, -1);
      expect(y.invert(tip[1])).toBeCloseTo(onset!.mouthPressure / 1000, 1);
      expect(Math.abs(x.invert(low[0]) / slot!.lipHz[0] - 1)).toBeLessThan(2e-3);
    });
    expect(description(svg)).toMatch(
      /0 to 16 kPa .* gap of 5\.00 mm · 0\.197 in.* C in the staff \(4\) from 3\.9 kPa, 23\d cents wide/,
    );
  });

  test("names every note as it is written, in one row or two; by numbers alone where the instrument is not known", () => {
    const rowsIn = (width: number) => {
      const { svg } = playPad(pad, { ...laptop, width });
      const names = [...svg.querySelectorAll("text")].filter((one) => /^\d+ [A-G]/.test(one.textContent!));
      expect(names.map((one) => one.textContent)).toEqual([
        "2 C",
        "3 G",
        "4 C",
        "5 E",
        "6 G",
        "7 B♭",
        "8 C",
        "9 D",
        "10 E",
      ]);
      return new Set(names.map((one) => one.getAttribute("y"))).size;
    };
    expect([rowsIn(1200), rowsIn(280)]).toEqual([1, 2]);
    const { instrument: _, ...unknown } = laptop;
    expect(text(playPad(pad, unknown).svg).split("\n")).toContain("10");
  });

  test("says what it is while the slots are worked out: the notes at their resonances", () => {
    const { svg } = playPad({ ...pad, chosen: null, reference: null }, laptop);
    expect(svg.querySelectorAll("[data-part=slot]")).toHaveLength(0);
    expect(text(svg).split("\n")).toContain("4 C");
    expect(description(svg)).toMatch(/still being worked out/);
    expect(numbersIn(svg)).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("leaves out notes that no lips start, and the reference where it is the chosen gap", () => {
    const [first, ...others] = pad.chosen!.notes;
    const chosen = { ...pad.chosen!, notes: [{ ...first, onset: null, slot: null }, ...others] };
    const { svg } = playPad({ ...pad, chosen, chosenGapMm: 2.5 }, laptop);
    expect(svg.querySelectorAll("[data-part=slot]")).toHaveLength(8);
    expect(svg.querySelectorAll("[data-part=reference-slot]")).toHaveLength(0);
    expect(playPadTable({ ...pad, chosen }).rows).toHaveLength(17);
    expect(numbersIn(svg)).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("puts the point where the lips are, filled while it sounds", () => {
    const drawing = playPad(pad, laptop);
    const circle = drawing.svg.querySelector("[data-part=here] circle")!;
    placePoint(drawing, { lipHz: 430, mouthPressure: 6000, isSounding: true });
    expect(drawing.x.invert(Number(circle.getAttribute("cx")))).toBeCloseTo(430, 0);
    expect(drawing.y.invert(Number(circle.getAttribute("cy")))).toBeCloseTo(6, 1);
    expect(circle.getAttribute("fill")).toContain("--gap");
    placePoint(drawing, { lipHz: 430, mouthPressure: 0, isSounding: false });
    expect(circle.getAttribute("fill")).toContain("--paper");
  });
});

describe("a phrase at two gaps", () => {
  const [chosen, reference] = perform(instrument, PHRASES.slur, [5, 2.5], 2.5);
  const phrase = { chosen, reference, feltCents: 3.5 };

  test("is drawn as what the lips did and what sounded, named where a note is held", () => {
    for (const frame of [laptop, phone]) {
      const { svg } = phraseChart(phrase, { ...frame, height: 360 });
      for (const part of ["lips", "chosen", "reference", "difference", "felt"])
        expect(svg.querySelector(`[data-part=${part}]`)!.getAttribute("d")).toMatch(/^M\d/);
      expect(svg.querySelector("[data-part=reference]")!.getAttribute("stroke-dasharray")).toBeTruthy();
      expect(PHRASES.slur.notes.length).toBeGreaterThan(0);
      for (const n of PHRASES.slur.notes)
        expect(text(svg).split("\n")).toContain(noteLabel(n, "b-flat-trumpet"));
      expect(numbersIn(svg)).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  test("says by how much held notes differ and whether that is heard", () => {
    const found = phraseFinding(phrase, "b-flat-trumpet");
    expect(found).toMatch(
      /^Held notes differ by −\d\.\d cents at most, (which can be heard|too small to hear)/,
    );
    expect(phraseFinding({ ...phrase, feltCents: 40 })).toMatch(
      /too small to hear \(that is from 40 cents on\)/,
    );
    expect(phraseFinding({ ...phrase, feltCents: 0.1 })).toMatch(/can be heard \(from 0\.1 cents on\)/);
    expect(phraseFinding({ chosen, reference: chosen, feltCents: 3.5 })).toMatch(/differ by 0\.0 cents/);
    expect(description(phraseChart(phrase, laptop).svg)).toContain(found);
  });

  test("says which notes are held at one gap only, speak late, or that there is nothing to compare", () => {
    const altered = (change: (note: SpokenNote) => SpokenNote) => ({
      ...chosen,
      spoken: chosen.spoken.map(change),
    });
    const late = altered((one) => (one.note === 5 ? { ...one, after: one.after! + 0.2 } : one));
    expect(phraseFinding({ ...phrase, chosen: late })).toMatch(/Speaking at another moment: partial 5\.$/);
    const missed = altered((one) => (one.note === 6 ? { ...one, after: null, frequencyHz: null } : one));
    expect(phraseFinding({ ...phrase, chosen: missed })).toMatch(/Held at one gap only: partial 6\.$/);
    const silent = altered((one) => ({ ...one, after: null, frequencyHz: null }));
    expect(phraseFinding({ ...phrase, chosen: silent })).toMatch(/nothing to compare/);
    expect(numbersIn(phraseChart({ ...phrase, chosen: silent }, laptop).svg)).not.toMatch(
      /NaN|undefined|Infinity/,
    );
  });

  test("has a table of every stretch", () => {
    const { columns, rows } = phraseTable(phrase);
    expect(rows).toHaveLength(chosen.track.length);
    for (const row of rows) expect(row).toHaveLength(columns.length);
    expect(rows[20].slice(0, 3)).toEqual([
      chosen.track[20].seconds,
      chosen.track[20].lipHz,
      chosen.track[20].frequencyHz,
    ]);
  });
});
