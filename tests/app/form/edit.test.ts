import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { moistAir } from "../../../src/acoustics/medium/air.ts";
import { applyText, lengthText, shownText } from "../../../src/app/form/setup/edits.ts";
import {
  ABOUT,
  BODY,
  CONDITIONS,
  CONSTANTS,
  fieldAt,
  MODEL,
  MOUTHPIECE,
  placeName,
  RECEIVER,
  type SetupField,
  THRESHOLDS,
} from "../../../src/app/form/setup/fields.ts";
import { limitsAt } from "../../../src/app/form/setup/limits.ts";
import { cellPath, PARTS } from "../../../src/app/form/setup/paths.ts";
import { shared } from "../../../src/app/state/shared.ts";
import { USUAL_CONDITIONS, USUAL_CONSTANTS, withAirKind } from "../../../src/app/tasks/edit/airKind.ts";
import { insertRowAfter, removeRow, replaceRows } from "../../../src/app/tasks/edit/rows.ts";
import { provenanceOf } from "../../../src/setup/dimension/provenance.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { exampleFile } from "../../setup/example.ts";
import { someSetup } from "../someSetup.ts";

const setup = someSetup();
const breathing = readSetup({
  ...exampleFile(),
  air: { ...exampleFile().air, breath: { temperature: 35, reach: 300 } },
});
const constants = withAirKind(setup, "constants", undefined);
const everyField: readonly SetupField[] = [
  ...ABOUT,
  ...MOUTHPIECE,
  ...RECEIVER,
  ...BODY,
  ...CONDITIONS,
  ...CONSTANTS,
  ...MODEL,
  ...THRESHOLDS,
];
const cells = PARTS.flatMap((part) =>
  setup[part].profileMm.flatMap((_, row) =>
    ([0, 1] as const).map((column) => cellPath({ part, row, column })),
  ),
);
const paths = [...everyField.map(({ path }) => path), ...cells];

const edited = (of: Setup, path: string, text: string, unit: "mm" | "in" = "mm"): Setup => {
  const outcome = applyText(of, { path, text, unit });
  if ("problem" in outcome) throw new Error(outcome.problem);
  return outcome.setup;
};
const refused = (of: Setup, path: string, text: string, unit: "mm" | "in" = "mm"): string => {
  const outcome = applyText(of, { path, text, unit });
  if ("setup" in outcome) throw new Error(`${path} took ${text}`);
  return outcome.problem;
};

const numbersIn = (json: unknown): number[] =>
  typeof json === "number" ? [json] : typeof json === "object" ? Object.values(json!).flatMap(numbersIn) : [];

describe("a typed text", () => {
  test("is a length in the chosen unit, or in its own", () => {
    expect(edited(setup, "receiver.depth", "25", "mm").receiver.depthMm).toBe(25);
    expect(edited(setup, "receiver.depth", "1", "in").receiver.depthMm).toBe(25.4);
    expect(edited(setup, "receiver.depth", "1 in", "mm").receiver.depthMm).toBe(25.4);
    expect(edited(setup, "mouthpiece.cupDepth", "3/8 in", "mm").mouthpiece.cupDepthMm).toBe(9.525);
    expect(edited(setup, "leadpipe.profile[1][1]", "11,7").leadpipe.profileMm[1]).toEqual([240, 11.7]);
  });

  test("is a number in the unit beside the field, or in another that is known", () => {
    expect(edited(setup, "air.humidity", "45").air).toMatchObject({ humidity: 0.45 });
    expect(edited(setup, "air.temperature", "68 °F").air).toMatchObject({ temperatureC: 20 });
    expect(edited(setup, "air.co2", "800").air).toMatchObject({ co2: 0.0008 });
    expect(edited(setup, "air.pressure", "101000 Pa").air).toMatchObject({ pressurePa: 101_000 });
    expect(edited(setup, "air.pressure", "1000,5").air).toMatchObject({ pressurePa: 100_050 });
    expect(edited(constants, "air.viscosity", "1.9e-5 Pa·s").air).toMatchObject({ viscosity: 1.9e-5 });
    for (const text of ["1:20", "1/20", "1 in 20", "5 %", "0.6 in/ft", "0,05", ".05"])
      expect(edited(edited(setup, "receiver.taper", "0.04"), "receiver.taper", text).receiver.taper).toBe(
        0.05,
      );
  });

  test("changes nothing but its place", () => {
    const next = edited(setup, "receiver.depth", "25");
    expect(writeSetup(next)).toEqual({
      ...writeSetup(setup),
      receiver: { mouthDiameter: 10.8, taper: 0.05, depth: 25 },
      provenance: { "receiver.depth": "measured" },
    });
    for (const part of ["air", "mouthpiece", "leadpipe", "body", "model", "thresholds"] as const)
      expect(next[part]).toBe(setup[part]);
  });

  test("that is what is shown leaves the very same setup, however it was rounded", () => {
    const fine = edited(setup, "receiver.depth", "24.543217 mm");
    for (const of of [setup, fine, breathing, constants])
      for (const unit of ["mm", "in"] as const)
        for (const path of paths) {
          const text = shownText(of, path, unit);
          if (text !== "" || fieldAt(path) === undefined || "optional" in fieldAt(path)!)
            expect(edited(of, path, text, unit)).toBe(of);
        }
  });

  test("empty takes out what may be left out, and nothing else", () => {
    expect(edited(setup, "mouthpiece.cupDepth", " ").mouthpiece).not.toHaveProperty("cupDepthMm");
    expect(edited(setup, "mouthpiece.shankTaper", "").mouthpiece).not.toHaveProperty("shankTaper");
    expect(edited(setup, "body.slideAt", "").body).not.toHaveProperty("slideAtMm");
    expect(refused(setup, "receiver.depth", "")).toBe("A length is missing; give one");
    expect(refused(setup, "air.temperature", "")).toBe("A number is missing; give one");
    expect(refused(setup, "leadpipe.profile[0][0]", "")).toContain("empty the whole row");
    expect(refused(breathing, "air.breath.reach", "")).toContain("issing; give a length");
  });

  test("in an inch file leaves every other length as it was", () => {
    const inches = readSetup({ ...writeSetup(setup), units: "mm" });
    const inInches = edited(inches, "units", "in");
    expect(inInches).toEqual({ ...inches, units: "in" });
    expect(readSetup(writeSetup(edited(inInches, "name", "Another")))).toEqual({
      ...inInches,
      name: "Another",
    });
  });

  test("is refused with what is wrong and what would be right", () => {
    expect(refused(setup, "receiver.depth", "deep")).toMatch(
      /^"deep" is not a length.*; give a number with mm/,
    );
    expect(refused(setup, "air.humidity", "130")).toBe(
      '"130" is out of range; give a number from 0 to 100 %',
    );
    expect(refused(setup, "air.pressure", "1,013")).toContain("can be read in two ways");
    expect(refused(setup, "air.pressure", "760 torr")).toBe(
      '"760 torr" has a unit that is not known here; give a number from 500 to 1100 hPa',
    );
    expect(refused(setup, "receiver.taper", "1:0")).toContain("not a finite number");
    expect(refused(setup, "receiver.taper", "steep")).toContain("such as 0.05 or 1:20");
    expect(refused(setup, "model.junction", "both")).toContain("give modal or plane");
    expect(refused(setup, "name", "n".repeat(201))).toContain("text of at most 200 characters");
  });

  test("that contradicts another place is refused where it was typed, the other named", () => {
    expect(refused(setup, "mouthpiece.insertion", "30")).toMatch(/^The gap would be -5.460 mm.*24.540 mm$/);
    expect(refused(setup, "receiver.depth", "20")).toMatch(/^Mouthpiece, insertion: the gap would be/);
    expect(refused(setup, "mouthpiece.profile[3][1]", "9.8")).toMatch(
      /^Mouthpiece, shank end diameter: .* leaves no wall around the bore/,
    );
    expect(refused(setup, "mouthpiece.shankEndDiameter", "0.3", "in")).toMatch(/^"0.3 in" leaves no wall/);
    const tooDeep = refused(setup, "mouthpiece.insertion", "1", "in");
    expect(tooDeep).toMatch(/gap would be -0\.0\d\d\d in.*at most the receiver's depth, 0\.\d{4} in/);
    expect(tooDeep).not.toMatch(/mm/);
    expect(refused(setup, "leadpipe.profile[1][0]", "-1")).toMatch(/^The bore runs backwards/);
    expect(refused(setup, "body.profile[1][1]", "0")).toBe("The diameter is 0.000 mm; give one above 0");
    expect(refused(setup, "air.breath.temperature", "35")).toMatch(
      /^Air, breath reach: missing; give a length/,
    );
  });

  test("of any kind, anywhere, gives a setup that can be saved and read again, or words", () => {
    const pieces = fc.constantFrom(
      ...'0 1 2 9 . , - + / : e % mm in cm ° °C Pa hPa " ( ) * \u2212 \u00bd NaN Infinity null \u{1F600} \uD800'.split(
        " ",
      ),
      " ",
    );
    const text = fc.oneof(
      fc.string(),
      fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join("")),
      fc.double().map(String),
      fc.double({ min: 0, max: 40, noNaN: true }).map(String),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(setup, breathing, constants),
        fc.constantFrom(...paths),
        text,
        fc.constantFrom("mm" as const, "in" as const),
        (of, path, typed, unit) => {
          const outcome = applyText(of, { path, text: typed, unit });
          if ("problem" in outcome) expect(outcome.problem).toMatch(/\S.*\S/);
          else {
            expect(numbersIn(writeSetup(outcome.setup)).every(Number.isFinite)).toBe(true);
            expect(readSetup(writeSetup(outcome.setup))).toEqual(outcome.setup);
            if (fieldAt(path)?.kind !== "words")
              expect(shownText(outcome.setup, path, unit)).not.toMatch(/NaN|Infinity/);
            expect(Object.isFrozen(outcome.setup)).toBe(true);
          }
        },
      ),
      { numRuns: 400 },
    );
  });

  test("of a length comes back from what is then shown, to a tenth of a micrometre", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 23, max: 60, noNaN: true }),
        fc.constantFrom("mm" as const, "in" as const),
        (depthMm, unit) => {
          const next = edited(setup, "receiver.depth", `${depthMm} mm`);
          const again = edited(
            edited(next, "receiver.depth", "30"),
            "receiver.depth",
            shownText(next, "receiver.depth", unit),
            unit,
          );
          expect(Math.abs(again.receiver.depthMm - depthMm)).toBeLessThan(1.3e-4);
        },
      ),
    );
  });
});

test("lengths are shown as fine as they are measured, and never as nothing or as minus nothing", () => {
  expect(lengthText(2.54, "mm")).toBe("2.54");
  expect(lengthText(2.54, "in")).toBe("0.1");
  expect(lengthText(22, "in")).toBe("0.86614");
  expect(lengthText(0, "in")).toBe("0");
  expect(lengthText(-0, "mm")).toBe("0");
  expect(lengthText(1.23456e-6, "mm")).toBe("0.00000123");
});

test("every entry has a name, and every number limits from the file's schema", () => {
  expect(new Set(everyField.map(({ path }) => path)).size).toBe(everyField.length);
  expect(everyField).toHaveLength(32);
  for (const field of everyField) {
    if (!field.quantity) continue;
    const { least, most } = limitsAt(field.path);
    expect([field.path, Number.isFinite(least), least < most]).toEqual([field.path, true, true]);
  }
  expect(placeName("leadpipe.profile[3][1]")).toBe("leadpipe, row 4, inner diameter");
  expect(placeName("body.profile")).toBe("body, bore profile");
  expect(placeName("air.breath.reach")).toBe("air, breath reach");
});

describe("rows", () => {
  const profileOf = (outcome: ReturnType<typeof removeRow>) => {
    if (!("setup" in outcome)) throw new Error(outcome.problems[0].message);
    return outcome.setup.leadpipe.profileMm;
  };

  test("a new row lies between its neighbours, or goes on at the end", () => {
    expect(profileOf(insertRowAfter(setup, "leadpipe", 0))).toEqual([
      [0, 8.8],
      [120, 10.24],
      [240, 11.68],
    ]);
    expect(profileOf(insertRowAfter(setup, "leadpipe", 1)).at(-1)).toEqual([480, 11.68]);
  });

  test("nothing fits into a step, and a bore keeps two rows", () => {
    const stepped = replaceRows(
      setup,
      "leadpipe",
      [
        [0, 8.8],
        [10, 9],
        [10, 9.5],
        [240, 11.68],
      ],
      null,
    );
    if (!("setup" in stepped)) throw new Error("refused");
    expect(insertRowAfter(stepped.setup, "leadpipe", 1)).toMatchObject({
      problems: [{ message: expect.stringContaining("rows 2 and 3 are a step at 10.000 mm") }],
    });
    expect(removeRow(setup, "leadpipe", 0)).toMatchObject({
      problems: [{ path: "leadpipe.profile", message: expect.stringContaining("a list of 2 to 5000") }],
    });
  });

  test("rows are written over those that are there, and past the end", () => {
    expect(
      profileOf(
        replaceRows(
          setup,
          "leadpipe",
          [
            [200, 11],
            [300, 12],
          ],
          1,
        ),
      ),
    ).toEqual([
      [0, 8.8],
      [200, 11],
      [300, 12],
    ]);
    expect(
      replaceRows(
        setup,
        "leadpipe",
        [
          [0, 9],
          [300, 0],
        ],
        null,
      ),
    ).toMatchObject({
      problems: [{ path: "leadpipe.profile[1][1]" }],
    });
  });
});

describe("the two kinds of air", () => {
  test("one comes back as it was; without one before, it is the usual air", () => {
    expect(withAirKind(constants, "conditions", setup.air).air).toBe(setup.air);
    expect(withAirKind(setup, "conditions", undefined)).toBe(setup);
    expect(readSetup(writeSetup(constants)).air).toEqual(USUAL_CONSTANTS);
    expect(withAirKind(constants, "conditions", undefined).air).toEqual(USUAL_CONDITIONS);
  });

  test("the usual constants are the model's air of the usual conditions, to four digits", () => {
    const air = moistAir(USUAL_CONDITIONS);
    for (const name of ["density", "soundSpeed", "viscosity", "heatRatio", "prandtl"] as const)
      expect(Math.abs(USUAL_CONSTANTS[name] / air[name] - 1)).toBeLessThan(5e-5);
  });
});

test("what is equal is shared, at any depth", () => {
  const trees = fc.letrec((tie) => ({
    tree: fc.oneof(
      { maxDepth: 4 },
      fc.integer({ min: 0, max: 2 }),
      fc.array(tie("tree"), { maxLength: 3 }),
      fc.dictionary(fc.constantFrom("a", "b", "c"), tie("tree")),
    ),
  })).tree;
  fc.assert(
    fc.property(trees, trees, (a, b) => {
      expect(shared(a, b)).toEqual(b);
      expect(shared(a, structuredClone(a))).toBe(a);
    }),
  );
});

describe("standard uncertainties", () => {
  const depth = 'uncertainties["receiver.depth"]';

  test("are typed like any length, and taken out by an empty text", () => {
    const outcome = applyText(someSetup(), { path: depth, text: "0.001 in", unit: "mm" });
    if (!("setup" in outcome)) throw new Error(outcome.problem);
    expect(outcome.setup.uncertainties["receiver.depth"]).toEqual({
      standard: 0.0254,
      degreesOfFreedom: Infinity,
    });
    expect(shownText(outcome.setup, depth, "in")).toBe("0.001");
    const without = applyText(outcome.setup, { path: depth, text: "", unit: "mm" });
    expect("setup" in without && without.setup.uncertainties).toEqual({});
  });

  test("keep their degrees of freedom until another is typed", () => {
    const measured = {
      ...someSetup(),
      uncertainties: { "receiver.depth": { standard: 0.02, degreesOfFreedom: 4 } },
    };
    expect(shownText(measured, depth, "mm")).toBe("0.02");
    const same = applyText(measured, { path: depth, text: "0.02", unit: "mm" });
    expect("setup" in same && same.setup).toBe(measured);
    const renamed = applyText(measured, { path: "name", text: "Another", unit: "mm" });
    expect("setup" in renamed && renamed.setup.uncertainties).toEqual(measured.uncertainties);
  });

  test("are refused in words where they cannot be", () => {
    const far = applyText(someSetup(), { path: depth, text: "30", unit: "mm" });
    expect(far).toMatchObject({
      problem: expect.stringMatching(/no standard uncertainty of the receiver depth/),
    });
    const taper = applyText(someSetup(), { path: 'uncertainties["receiver.taper"]', text: "2", unit: "mm" });
    expect(taper).toMatchObject({ problem: expect.stringMatching(/give a number from 0 to 0\.5/) });
  });
});

describe("where a typed number comes from", () => {
  const standIn = () => ({ ...someSetup(), provenance: { receiver: "assumed", body: "assumed" } as const });

  test("is the instrument: it is measured from then on, and nothing else is", () => {
    const outcome = applyText(standIn(), { path: "receiver.depth", text: "24.7", unit: "mm" });
    if (!("setup" in outcome)) throw new Error("refused");
    expect(outcome.setup.receiver.depthMm).toBe(24.7);
    expect(provenanceOf(outcome.setup, "receiver.depth")).toBe("measured");
    expect(provenanceOf(outcome.setup, "receiver.taper")).toBe("assumed");
    expect(provenanceOf(outcome.setup, "body.profile")).toBe("assumed");
  });

  test("stays what it was where a name or a model is typed", () => {
    const outcome = applyText(standIn(), { path: "name", text: "Another", unit: "mm" });
    expect(outcome).toMatchObject({ setup: { provenance: standIn().provenance } });
  });
});
