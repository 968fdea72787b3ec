/** What cannot be an instrument is refused, and what is unusual is told, each in one line with its place. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { flawsOf, warningsOf, warningText } from "../../../src/setup/dimension/plausible.ts";
import { readKeptSetup, readSetup } from "../../../src/setup/file/readSetup.ts";
import { SetupError } from "../../../src/setup/problem.ts";
import { demo } from "../../acoustics/setups.ts";

const FILE = JSON.parse(readFileSync(new URL("../../../shared/demo.setup.json", import.meta.url), "utf8"));
type Change = (file: typeof FILE) => void;

const changed = (change: Change) => {
  const file = structuredClone(FILE);
  change(file);
  return file;
};
const refusal = (change: Change): string => {
  try {
    readSetup(changed(change));
  } catch (error) {
    if (error instanceof SetupError) return error.message;
    throw error;
  }
  return "";
};
const warnings = (change: Change): string[] => warningsOf(readSetup(changed(change))).map(warningText);

const body = (profile: number[][]) => (file: typeof FILE) => {
  file.body.profile = profile;
};
const leadpipe = (profile: (number | string)[][]) => (file: typeof FILE) => {
  file.leadpipe.profile = profile;
};

describe("what is refused", () => {
  const cases: [string, Change, RegExp][] = [
    [
      "a diameter of a millionth",
      body([
        [0, 11.68],
        [500, 1e-6],
        [1030, 122],
      ]),
      /^body\.profile\[1\]\[1\]: .*0\.000001 mm.*give 1 mm to 1500 mm/,
    ],
    [
      "a diameter of 1e-308",
      body([
        [0, 11.68],
        [500, 1e-308],
        [1030, 122],
      ]),
      /^body\.profile\[1\]\[1\]: .*1e-308 mm/,
    ],
    [
      "a leadpipe in metres",
      leadpipe([
        [0, 8.8],
        [0.24, 11.68],
      ]),
      /^leadpipe\.profile: a length of 0\.24 mm.*5 mm to 2500 mm/,
    ],
    [
      "a leadpipe of 10 m",
      leadpipe([
        [0, 8.8],
        [10_000, 11.68],
      ]),
      /^leadpipe\.profile: a length of 10000 mm/,
    ],
    [
      "positions in mm, bores in inches",
      leadpipe([
        [0, 0.346],
        [240, 0.46],
      ]),
      /^leadpipe\.profile\[0\]\[1\]: .*0\.346 mm.*inches/,
    ],
    [
      "positions in inches, bores in mm",
      leadpipe([
        [0, 8.8],
        [2, 9],
        [4, 11.68],
      ]),
      /^leadpipe\.profile: a length of 4 mm.*inches/,
    ],
    [
      "one inch among millimetres",
      leadpipe([
        [0, 8.8],
        [60, 9.5],
        [120, 0.402],
        [240, 11.68],
      ]),
      /^leadpipe\.profile\[2\]\[1\]: .*0\.402 mm.*in inches it would fit; give 10\.21 mm, or "0\.402 in"/,
    ],
    [
      "a cavity far wider than its mouths",
      (file) => Object.assign(file.receiver, { mouthDiameter: 48, taper: 0.05 }),
      /^receiver\.mouthDiameter: a receiver 48 mm wide.*no more than 5/,
    ],
    [
      "a receiver of 140 mm, for which Re Z < 0 came out",
      (file) => Object.assign(file.receiver, { mouthDiameter: 140, taper: 0.5 }),
      /^receiver\.mouthDiameter: a diameter of 140 mm/,
    ],
    [
      "a wall across the bore",
      body([
        [0, 11.68],
        [500, 11.68],
        [500, 200],
        [1030, 200],
      ]),
      /^body\.profile\[2\]\[1\]: a step from 11\.68 mm to 200 mm/,
    ],
    [
      "the same a millionth apart",
      body([
        [0, 11.68],
        [500, 11.68],
        [500.000001, 200],
        [1030, 200],
      ]),
      /^body\.profile\[2\]\[1\]: a step/,
    ],
    [
      "fifty chambers in a row, for which Re Z < 0 came out",
      body(Array.from({ length: 50 }, (_, i) => [20 * i, i % 2 ? 11 : 100])),
      /^body\.profile: the bore widens and narrows/,
    ],
    [
      "a whole instrument of a hand's breadth",
      (file) => {
        file.body = {
          profile: [
            [0, 11.68],
            [60, 122],
          ],
        };
        file.leadpipe.profile = [
          [0, 8.8],
          [20, 11.68],
        ];
      },
      /^body\.profile: a whole length/,
    ],
  ];
  it.each(cases)("%s", (_, change, words) => {
    const message = refusal(change);
    expect(message).toMatch(words);
    expect(message).not.toContain("\n");
  });
});

describe("what is told", () => {
  it("is nothing of the demo", () => {
    expect(warningsOf(demo())).toEqual([]);
  });

  const cases: [string, Change, RegExp][] = [
    [
      "one inch among millimetres that could be a diameter",
      body([
        [0, 11.68],
        [400, 12],
        [700, 60],
        [800, 2.95],
        [900, 90],
        [1030, 122],
      ]),
      /^body\.profile\[3\]\[1\]: a diameter of 2\.95 mm is 25\.4 times out of line.*"2\.95 in"/,
    ],
    [
      "a leadpipe shorter than any",
      leadpipe([
        [0, 8.8],
        [24, 11.68],
      ]),
      /^leadpipe\.profile: a length of 24 mm is unusual: usual is 50 mm to 1500 mm, or is it in inches\?/,
    ],
    [
      "an insertion in inches",
      (file) => {
        file.mouthpiece.insertion = 0.87;
      },
      /^mouthpiece\.insertion: .*is the insertion in inches/,
    ],
  ];
  it.each(cases)("%s", (_, change, words) => {
    expect(warnings(change)).toContainEqual(expect.stringMatching(words));
  });

  it("speaks the file's unit", () => {
    const file = { ...changed(() => {}), units: "in" };
    const inch = (x: unknown) => (typeof x === "number" ? x / 25.4 : x);
    for (const part of ["mouthpiece", "leadpipe", "body"])
      file[part].profile = file[part].profile.map((point: unknown[]) => point.map(inch));
    for (const [part, key] of [
      ["mouthpiece", "cupDepth"],
      ["mouthpiece", "shankEndDiameter"],
      ["mouthpiece", "insertion"],
      ["receiver", "mouthDiameter"],
      ["receiver", "depth"],
      ["body", "slideAt"],
    ])
      if (key in file[part]) file[part][key] = inch(file[part][key]);
    delete file.uncertainties;
    file.leadpipe.profile = [
      [0, 0.346],
      [1, 0.46],
    ];
    expect(warningsOf(readSetup(file)).map(warningText)[0]).toMatch(
      /^leadpipe\.profile: a length of 1 in is unusual: usual is 1\.969 in/,
    );
  });
});

describe("what was kept when the limits were wider", () => {
  const tiny = changed(
    body([
      [0, 11.68],
      [500, 1e-308],
      [1030, 122],
    ]),
  );

  it("is read, with what is wrong as a file's refusal says it; one that is an instrument has no flaw", () => {
    const kept = readKeptSetup(tiny);
    expect(() => readSetup(tiny)).toThrow(new SetupError(flawsOf(kept)).message);
    expect(flawsOf(kept)).toMatchObject([{ path: "body.profile[1][1]" }]);
    expect(flawsOf(readKeptSetup(FILE))).toEqual([]);
    expect(readKeptSetup(FILE)).toEqual(readSetup(FILE));
  });

  it("is still refused where it makes no sense line by line", () => {
    expect(() => readKeptSetup(changed(body([[0, 11.68]])))).toThrow(SetupError);
    expect(() =>
      readKeptSetup(
        changed((file) => {
          file.mouthpiece.insertion = 1000;
        }),
      ),
    ).toThrow(SetupError);
  });
});
