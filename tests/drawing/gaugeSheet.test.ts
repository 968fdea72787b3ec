// @vitest-environment jsdom
import { readFileSync } from "node:fs";
import DxfParser from "dxf-parser";
import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { type DrawnGauge, drawnGauge, type GaugeOptions } from "../../src/drawing/gaugeSheet.ts";
import type { Sheet } from "../../src/drawing/sheet.ts";
import { toDxf } from "../../src/drawing/toDxf.ts";
import { toPdf } from "../../src/drawing/toPdf.ts";
import { toSvg } from "../../src/drawing/toSvg.ts";
import { withProvenance } from "../../src/setup/dimension/provenance.ts";
import { readSetupText } from "../../src/setup/file/readSetup.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { STAND_INS, standIn } from "../../src/setup/standIns.ts";
import { GAUGE_KINDS, type GaugeKind, unknownLettersWords } from "../../src/words/bench/gauges.ts";

// as if it had been measured
const demo: Setup = { ...readSetupText(readFileSync("shared/demo.setup.json", "utf8")), provenance: {} };
const MM_PER_POINT = 25.4 / 72;

function drawn(kind: GaugeKind, options: Partial<GaugeOptions> = {}, setup = demo): DrawnGauge {
  const made = drawnGauge(setup, kind, { unit: "mm", ...options });
  if ("refused" in made) throw new Error(made.refused);
  return made;
}

/** Extents along x of the outlines at true size. */
const outlinesX = (sheet: Sheet): number[] =>
  sheet.marks.flatMap((mark) =>
    mark.kind === "line" && !mark.isEnlarged && mark.isClosed && mark.pen !== "thin"
      ? [Math.max(...mark.points.map(([x]) => x)) - Math.min(...mark.points.map(([x]) => x))]
      : [],
  );
const hasLength = (lengths: readonly number[], wanted: number) =>
  lengths.some((length) => Math.abs(length - wanted) < 1e-6);

/** Page size and every path of a PDF in mm, its text in one piece. */
async function pdfOf(sheet: Sheet) {
  const fetched: string[] = [];
  const { bytes, unknownLetters } = await toPdf(sheet, async (name) => {
    fetched.push(name);
    return Uint8Array.from(readFileSync(`node_modules/@fontsource/source-sans-3/files/${name}`));
  });
  const task = getDocument({ data: bytes, verbosity: 0 });
  const file = await task.promise;
  const page = await file.getPage(1);
  const { width, height } = page.getViewport({ scale: 1 });
  const { fnArray, argsArray } = await page.getOperatorList();
  const paths = fnArray.flatMap((fn, i) => {
    // [operation, data, [x0, y0, x1, y1]]
    const box = fn === OPS.constructPath ? argsArray[i][2] : undefined;
    return box ? [Array.from(box as ArrayLike<number>, (points) => points * MM_PER_POINT)] : [];
  });
  const { items } = await page.getTextContent();
  const preferences = await file.getViewerPreferences();
  const pages = file.numPages;
  await task.destroy();
  return {
    fetched,
    unknownLetters,
    inOnePiece: items.map((item) => ("str" in item ? item.str : "")).join(""),
    pages,
    preferences,
    widthMm: width * MM_PER_POINT,
    heightMm: height * MM_PER_POINT,
    paths,
    text: items.map((item) => ("str" in item ? item.str : "")).join(" "),
  };
}

describe("a workshop drawing", () => {
  it.each(GAUGE_KINDS)("of a %s has all that it needs inside its frame, in both units", (kind) => {
    for (const unit of ["mm", "in"] as const) {
      const { sheet } = drawn(kind, { unit });
      for (const mark of sheet.marks) {
        const points =
          mark.kind === "line" || mark.kind === "solid"
            ? mark.points
            : "at" in mark
              ? [mark.at]
              : [mark.centre];
        for (const [x, y] of points) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(sheet.widthMm);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(sheet.heightMm);
        }
      }
      expect(JSON.stringify(sheet)).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it("has its lengths at true size", () => {
    const plug = drawn("plug");
    if (!("overallMm" in plug.gauge)) throw new Error("no plug");
    expect(hasLength(outlinesX(plug.sheet), plug.gauge.overallMm)).toBe(true);
    expect(hasLength(outlinesX(drawn("leadpipe").sheet), 240)).toBe(true);
    expect(hasLength(outlinesX(drawn("mandrel", { overrunMm: 7 }).sheet), 254)).toBe(true);
    expect(hasLength(outlinesX(drawn("ring").sheet), 24.5)).toBe(true);
  });

  it("carries its cautions, and what is assumed", () => {
    const lent = withProvenance(demo, "assumed", "receiver.depth");
    const texts = (one: DrawnGauge) =>
      one.sheet.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])).join(" ");
    for (const kind of GAUGE_KINDS) expect(texts(drawn(kind))).toMatch(/eye protection.*qualified repairer/);
    expect(texts(drawn("plug", {}, lent))).toMatch(/Assumed, not measured: receiver depth\./);
    expect(texts(drawn("plug"))).not.toMatch(/Assumed/);
    expect(texts(drawn("leadpipe", {}, lent))).not.toMatch(/Assumed/);
  });

  it("tells tapers as shops set them", () => {
    const texts = drawn("leadpipe").sheet.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
    // (8.90 − 8.75)/32 = 0.0046875 = 1:213.3, 0.05625 in/ft
    expect(texts).toEqual(expect.arrayContaining(["1:213", "0.00469", "0.0563", "0.134°"]));
  });

  it("is refused in words", () => {
    const chamfered = {
      ...demo,
      leadpipe: {
        profileMm: [
          [0, 9.6],
          [240, 11.68],
        ] as const,
      },
    };
    expect(drawnGauge(chamfered, "plug", { unit: "mm" })).toMatchObject({
      refused: expect.stringMatching(/no lip/),
    });
    expect(drawnGauge(demo, "plug", { unit: "in", toleranceMm: 3 })).toMatchObject({
      refused: expect.stringMatching(/working tolerance is out of range; give 0.0000 in to 0.0197 in/),
    });
  });

  it("can be made for every family, or says why not", async () => {
    for (const id of STAND_INS) {
      const setup = await standIn(id);
      for (const kind of GAUGE_KINDS) {
        const made = drawnGauge(setup, kind, { unit: setup.units });
        if ("refused" in made) {
          expect(kind).toBe("plug");
          expect(made.refused).toMatch(/lip/);
        } else expect(made.sheet.marks.length).toBeGreaterThan(30);
      }
    }
  });
});

describe("as a PDF", () => {
  it.each(GAUGE_KINDS)(
    "a %s is one page of the sheet's size, and not to be scaled by a printer",
    async (kind) => {
      const { sheet } = drawn(kind);
      const { pages, widthMm, heightMm, text, preferences } = await pdfOf(sheet);
      expect(pages).toBe(1);
      expect(widthMm).toBeCloseTo(sheet.widthMm, 2);
      expect(heightMm).toBeCloseTo(sheet.heightMm, 2);
      expect(text).toContain(sheet.title.split(":")[0]);
      expect(text).toContain("50 mm on the print");
      expect(preferences).toMatchObject({ PrintScaling: "None" });
    },
  );

  it("is at true size: the outlines read back from it have the sheet's lengths in mm", async () => {
    const { sheet, gauge } = drawn("plug");
    if (!("overallMm" in gauge)) throw new Error("no plug");
    const { paths } = await pdfOf(sheet);
    const sizes = paths.map(([x0, y0, x1, y1]) => [x1 - x0, y1 - y0]);
    const isThere = (wide: number, high: number) =>
      sizes.some(([width, height]) => Math.abs(width - wide) < 0.01 && Math.abs(height - high) < 0.01);
    expect(isThere(gauge.overallMm, gauge.noseDiameterMm)).toBe(true);
    // the length to measure on the print
    expect(isThere(50, 0)).toBe(true);
    // not true of the enlarged one
    expect(isThere(gauge.overallMm + 1, gauge.noseDiameterMm)).toBe(false);
    const pipe = await pdfOf(drawn("leadpipe").sheet);
    expect(pipe.paths.some(([x0, , x1]) => Math.abs(x1 - x0 - 240) < 0.01)).toBe(true);
  });

  it("Latin, Greek and Cyrillic names are read back as they were typed", async () => {
    const named = (name: string) => pdfOf(drawn("plug", {}, { ...demo, name }).sheet);
    for (const name of ["Łukasz Őry", "Ζωή", "Дарья", "Nguyễn № 7", "Ł. Дарья − Ζωή"]) {
      const { inOnePiece, unknownLetters } = await named(name);
      expect(inOnePiece).toContain(name);
      expect(unknownLetters).toEqual([]);
    }
    // a letter and its mark typed apart
    expect((await named("O\u030Bry")).inOnePiece).toContain("Őry");
    // and what every reader has the letters of needs no typeface fetched
    expect((await named("Jürgen Åberg")).fetched).toEqual([]);
  });

  it("says which letters it has not got, and where they would be", async () => {
    const { inOnePiece, unknownLetters } = await pdfOf(
      drawn("plug", {}, { ...demo, name: "Łódź 小号 7" }).sheet,
    );
    expect(inOnePiece).toContain("Łódź ?? 7");
    expect(unknownLetters).toEqual(["小", "号"]);
    expect(unknownLettersWords(unknownLetters)).toMatch(/question mark in place of 小 号:.*SVG keeps/);
  });
});

describe("as DXF", () => {
  it.each(GAUGE_KINDS)(
    "a %s is read back by another program's parser, in millimetres and at true size",
    (kind) => {
      const { sheet } = drawn(kind);
      const dxf = new DxfParser().parseSync(toDxf(sheet))!;
      expect(dxf.header.$INSUNITS).toBe(4);
      const vertices = (entity: object) =>
        "vertices" in entity ? (entity.vertices as readonly { x: number; y: number }[]) : [];
      const outlines = dxf.entities.filter(({ layer }) => layer === "OUTLINE");
      const widths = outlines.map((entity) => {
        const xs = vertices(entity).map(({ x }) => x);
        return Math.max(...xs) - Math.min(...xs);
      });
      for (const wanted of outlinesX(sheet)) expect(hasLength(widths, wanted)).toBe(true);
      const texts = dxf.entities.filter(({ type }) => type === "TEXT");
      expect(texts.length).toBe(sheet.marks.filter((mark) => mark.kind === "text").length);
      const enlarged = sheet.marks.filter(({ isEnlarged }) => isEnlarged);
      expect(dxf.entities.filter(({ layer }) => layer === "ENLARGED").length).toBe(enlarged.length);
    },
  );

  it("is ASCII, with the signs that CAD programs know", () => {
    const text = toDxf(drawn("plug", {}, { ...demo, name: "Łódź\n7 %" }).sheet);
    expect(text).toMatch(/^[\x20-\x7e\r\n\t]*$/);
    expect(text).toContain("%%c9.35 [0.368]");
    expect(text).toContain("\\U+0141\\U+00F3d\\U+017A 7 %%%");
  });
});

describe("as SVG", () => {
  it.each(GAUGE_KINDS)("a %s is a file in millimetres that any XML parser reads", (kind) => {
    const { sheet } = drawn(kind, {}, { ...demo, name: 'a < b & "c" \u0001' });
    const file = new DOMParser().parseFromString(toSvg(sheet), "image/svg+xml");
    const { documentElement: svg } = file;
    expect(file.querySelector("parsererror")).toBeNull();
    expect(svg.getAttribute("width")).toBe(`${sheet.widthMm}mm`);
    expect(svg.getAttribute("viewBox")).toBe(`0 0 ${sheet.widthMm} ${sheet.heightMm}`);
    expect(svg.querySelector("title")!.textContent).toContain('a < b & "c"');
    expect(svg.querySelector("[style]")).toBeNull();
  });
});
