import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSetup, readSetupText } from "../../../src/setup/file/readSetup.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { exampleFile } from "../example.ts";
import { refusal } from "../refusal.ts";

/** The problems of the example after changes to it: path and new value, or undefined to take it away. */
function problemsAfter(...changes: [path: string, value: unknown][]) {
  const file = exampleFile();
  for (const [path, value] of changes) put(file, path, value);
  return refusal(() => readSetup(file));
}

describe("readSetup", () => {
  it("reads the example", () => {
    const setup = readSetup(exampleFile());
    expect(gapMm(setup)).toBeCloseTo(2.54, 12);
    expect(setup).toMatchObject({
      name: "Invented trumpet",
      units: "mm",
      air: { kind: "conditions", temperatureC: 27, humidity: 0.5, co2: 0.0004, pressurePa: 101325 },
      mouthpiece: { cupDepthMm: 11, shankEndDiameterMm: 9.7, shankTaper: 0.05, insertionMm: 22 },
      receiver: { mouthDiameterMm: 10.8, taper: 0.05, depthMm: 24.54 },
      leadpipe: {
        profileMm: [
          [0, 8.8],
          [240, 11.68],
        ],
      },
      body: { slideAtMm: 120 },
      model: { junction: "modal", radiation: "unflanged", bell: "plane", wallLossFactor: 1 },
      thresholds: { cents: 3.5, decibels: 1, slotCents: 20, pressurePercent: 10 },
    });
  });

  it("fills in what a file may leave out", () => {
    const { format, version, units, mouthpiece, receiver, leadpipe, body } = exampleFile();
    const file = {
      format,
      version,
      units,
      mouthpiece: { profile: mouthpiece.profile, insertion: mouthpiece.insertion },
      receiver,
      leadpipe,
      body: { profile: body.profile },
    };
    const setup = readSetup(file);
    expect(setup).toMatchObject({
      name: "",
      about: "",
      air: { kind: "conditions", temperatureC: 22, humidity: 0.5, co2: 0.0004, pressurePa: 101325 },
      model: { junction: "modal", radiation: "unflanged", bell: "automatic", wallLossFactor: 1 },
      thresholds: { cents: 3.5, decibels: 1, slotCents: 20, pressurePercent: 10 },
    });
    expect(Object.keys(setup.mouthpiece)).toEqual(["profileMm", "insertionMm"]);
    expect(Object.keys(setup.body)).toEqual(["profileMm"]);
    expect(readSetup({ ...file, model: { junction: "plane" }, thresholds: { cents: 5 } })).toMatchObject({
      model: { junction: "plane", radiation: "unflanged" },
      thresholds: { cents: 5, decibels: 1, slotCents: 20, pressurePercent: 10 },
    });
  });

  it("takes air constants as they are", () => {
    const air = { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.708 };
    expect(readSetup({ ...exampleFile(), air }).air).toEqual({ kind: "constants", ...air });
  });

  it("reads warm breath, its reach a length", () => {
    const air = { temperature: 20, breath: { temperature: 33, reach: "10 in" } };
    expect(readSetup({ ...exampleFile(), air }).air).toMatchObject({
      breath: { temperatureC: 33, reachMm: 254 },
    });
  });

  it("reads lengths with units anywhere, and bare ones in the file's units", () => {
    const setup = readSetup({
      format: "annulus-setup",
      version: 1,
      units: "in",
      mouthpiece: {
        profile: [
          ["0 mm", "16.4 mm"],
          ["79mm", "8.5mm"],
        ],
        cupDepth: "11mm",
        shankEndDiameter: "9.7 mm",
        insertion: "22 mm",
      },
      receiver: { mouthDiameter: "10.8 mm", taper: 0.05, depth: "22 mm + 1/8 in" },
      leadpipe: {
        profile: [
          [0, "8.8mm"],
          [9.5, "11 43/64 mm"],
        ],
      },
      body: {
        profile: [
          [0, 0.46],
          ["1030 mm", 4.8],
        ],
        slideAt: 4.75,
      },
    });
    expect(gapMm(setup)).toBeCloseTo(3.175, 12);
    expect(setup.leadpipe.profileMm[1]).toEqual([241.3, 11.671875]);
    expect(setup.body.profileMm[0]).toEqual([0, 11.684]);
    expect(setup.body.slideAtMm).toBe(120.65);
  });

  it("takes a step, and a gap of nothing", () => {
    const file = exampleFile();
    put(file, "leadpipe.profile", [
      [0, 8.8],
      [120, 9],
      [120, 9.2],
      [240, 11.68],
    ]);
    put(file, "mouthpiece.insertion", 24.54);
    expect(gapMm(readSetup(file))).toBe(0);
  });

  it("freezes all of it", () => {
    const { mouthpiece } = readSetup(exampleFile());
    expect(Object.isFrozen(mouthpiece)).toBe(true);
    expect(Object.isFrozen(mouthpiece.profileMm[1])).toBe(true);
  });
});

describe("refusals of readSetup", () => {
  it.each<[what: string, path: string, value: unknown, words: RegExp]>([
    ["another format", "format", "other", /^"other" is not accepted; give "annulus-setup"$/],
    ["a later version", "version", 2, /^2 is not accepted; give 1$/],
    ["unknown units", "units", "cm", /give "mm" or "in"/],
    ["a missing part", "receiver", undefined, /^missing; give an object with mouthDiameter, taper, depth$/],
    ["a missing length", "receiver.depth", undefined, /^missing; give a length/],
    ["an unknown key", "gap", 2.5, /^unknown key; the keys here are format, version/],
    ["an unknown key inside", "leadpipe.bore", 9, /^unknown key; the keys here are profile$/],
    ["a part of the wrong type", "body", 3, /^3 is not accepted; give an object with profile/],
    ["a name that is a number", "name", 7, /give text/],
    ["a length of the wrong type", "receiver.depth", null, /^null is not accepted; give a length/],
    ["text that is no length", "leadpipe.profile[1][0]", "3 kg", /^"3 kg" is not a length/],
    ["a length past all instruments", "body.profile[2][1]", "30 m", /too long/],
    ["a number past all numbers", "receiver.depth", Number("1e999"), /too large or not a number/],
    ["a point of three", "body.profile[1]", [1, 2, 3], /a list of 3 .*pair/],
    ["a profile of one point", "leadpipe.profile", [[0, 9]], /list of 2 to 5000 pairs/],
    ["a taper that widens", "receiver.taper", -0.05, /from 0 to 0.5/],
    ["cold air", "air.temperature", -1, /from 0 to 45/],
    ["humidity in percent", "air.humidity", 50, /from 0 to 1/],
    ["conditions without temperature", "air.temperature", undefined, /^missing; give a number from 0 to 45/],
    ["air that is text", "air", "warm", /^"warm" is not accepted; give an object/],
    ["an unknown junction", "model.junction", "fast", /give "modal" or "plane"/],
    ["losses out of reach", "model.wallLossFactor", 9, /from 0.5 to 5/],
    ["a negative threshold", "thresholds.cents", -1, /from 0 to 100/],
    ["a bore that runs backwards", "body.profile[1][0]", -5, /runs backwards from 0.000 mm to -5.000 mm/],
    ["a diameter of nothing", "leadpipe.profile[0][1]", 0, /diameter is 0.000 mm; give one above 0/],
    ["a negative diameter", "mouthpiece.profile[2][1]", "-1 mm", /above 0/],
    [
      "a bore of no length",
      "leadpipe.profile",
      [
        [0, 9],
        [0, 10],
      ],
      /no length/,
    ],
    [
      "a bore of 30 m",
      "body.profile",
      [
        ["-15 m", 11],
        ["15 m", 122],
      ],
      /longer than 20 m/,
    ],
    [
      "a negative gap",
      "mouthpiece.insertion",
      25,
      /gap would be -0.460 mm: the shank would be past the start/,
    ],
    ["a negative insertion", "mouthpiece.insertion", -1, /0 or more/],
    ["a receiver without depth", "receiver.depth", 0, /above 0/],
    ["a receiver that closes", "receiver.taper", 0.45, /to a diameter of -0.243 mm.*below 0.440/],
    ["a shank without wall", "mouthpiece.shankEndDiameter", 8.5, /no wall/],
    [
      "a cavity narrower than the shank's bore",
      "receiver.mouthDiameter",
      9.6,
      /end is 8.500 mm, but .* only 8.500 mm/,
    ],
    ["a slide outside the body", "body.slideAt", 1031, /not inside the body/],
    ["a slide before the body", "body.slideAt", -1, /not inside the body/],
    ["a cup longer than the mouthpiece", "mouthpiece.cupDepth", 79, /not inside the mouthpiece/],
    ["a cup of no depth", "mouthpiece.cupDepth", 0, /above 0/],
  ])("%s", (_, path, value, words) => {
    const problems = problemsAfter([path, value]);
    expect(problems.map((problem) => problem.path)).toEqual([path]);
    expect(problems[0].message).toMatch(words);
  });

  it.each<[what: string, change: string, value: unknown, path: string]>([
    ["breath without reach", "air.breath", { temperature: 33 }, "air.breath.reach"],
    ["breath of no reach", "air.breath", { temperature: 33, reach: 0 }, "air.breath.reach"],
    [
      "three points at one position",
      "leadpipe.profile",
      [
        [0, 9],
        [5, 9],
        [5, 10],
        [5, 11],
      ],
      "leadpipe.profile[3][0]",
    ],
  ])("%s", (_, change, value, path) => {
    expect(problemsAfter([change, value]).map((problem) => problem.path)).toEqual([path]);
  });

  it("a mixture of air conditions and constants", () => {
    const paths = problemsAfter(["air", { temperature: 20, density: 1.2 }]).map((problem) => problem.path);
    expect(paths).toContain("air.temperature");
    expect(paths).toContain("air.soundSpeed");
  });

  it("collects problems of every kind, and counts them in the message", () => {
    const file = exampleFile();
    put(file, "units", "cm");
    put(file, "colour", "gold");
    put(file, "leadpipe.profile[0][0]", "three");
    put(file, "body.profile[1][0]", -5);
    put(file, "mouthpiece.insertion", 30);
    const paths = refusal(() => readSetup(file)).map((problem) => problem.path);
    expect(paths.sort()).toEqual([
      "body.profile[1][0]",
      "colour",
      "leadpipe.profile[0][0]",
      "mouthpiece.insertion",
      "units",
    ]);
    expect(() => readSetup(file)).toThrow(/^\S+: .* \(and 4 more\)$/);
  });

  it("keeps the value as it was written", () => {
    const [problem] = problemsAfter(["leadpipe.profile[1][0]", "3 kg"]);
    expect(problem.value).toBe("3 kg");
  });
});

describe("readSetupText", () => {
  it("reads a file, with or without a byte order mark", () => {
    const text = JSON.stringify(exampleFile());
    expect(readSetupText(text)).toEqual(readSetup(exampleFile()));
    expect(readSetupText(`\uFEFF${text}`)).toEqual(readSetup(exampleFile()));
  });
  it.each([
    ['{\n  "format": "annulus-setup",\n  "version": 1,,\n}', /unexpected "," at line 3, column 16/],
    ['{"units": mm}', /unexpected "m" at line 1, column 11/],
    ['{"units": "mm"', /the text ends too early at line 1, column 15/],
    ["", /the text ends too early at line 1, column 1/],
    ["{'units': 1}", /unexpected "'" at line 1, column 2/],
    ['{"a": 1} x', /unexpected "x" at line 1, column 10/],
    ["[1, 2,]", /unexpected "\]" at line 1, column 7/],
    ["NaN", /unexpected "N" at line 1, column 1/],
  ])("names where %j stops being JSON", (text, words) => {
    expect(refusal(() => readSetupText(text))).toHaveLength(1);
    expect(() => readSetupText(text)).toThrow(words);
  });
  it.each([
    ["deep lists", "[".repeat(200_000) + "]".repeat(200_000)],
    ["open lists", "[".repeat(200_000)],
    ["deep objects", `${'{"a":'.repeat(100_000)}1${"}".repeat(100_000)}`],
    ["a long list", JSON.stringify(Array.from({ length: 200_000 }, () => 0))],
    ["a long text", `"${"x".repeat(5_000_000)}"`],
    ["an endless text", `"${"x".repeat(5_000_000)}`],
    ["too much", " ".repeat(10_000_001)],
    ["an inherited key", '{"__proto__": {"units": "mm"}, "constructor": 1, "toString": 2}'],
    ["broken Unicode", '{"\\ud800": 1}'],
    ["odd keys", '{"a/b~c#%20 d": 1, "": 2, "é": 3}'],
    ["1e999", JSON.stringify(exampleFile()).replace("24.54", "1e999")],
    ["null", "null"],
    ["a list", "[]"],
    ["a number", "3"],
  ])("refuses %s", (_, text) => expect(refusal(() => readSetupText(text)).length).toBeGreaterThan(0));

  it("refuses inherited keys inside a good file by name", () => {
    const text = JSON.stringify(exampleFile()).replace(
      '"receiver":{',
      '"receiver":{"__proto__":{"depth":1},',
    );
    expect(refusal(() => readSetupText(text)).map((problem) => problem.path)).toEqual(["receiver.__proto__"]);
  });

  it("survives the longest profile with every point wrong", () => {
    const junk = Array.from({ length: 5000 }, () => ["x", { y: 1 }]);
    const file = exampleFile();
    for (const part of ["mouthpiece", "leadpipe", "body"]) put(file, `${part}.profile`, junk);
    expect(refusal(() => readSetup(file)).length).toBeGreaterThanOrEqual(20_000);
  });
});

describe("whatever comes in", () => {
  /** Either a setup or a refusal fit for a person: `refusal` throws on anything else. */
  const isAnswered = (read: () => unknown) => void refusal(read);

  it("random JSON", () =>
    fc.assert(
      fc.property(fc.jsonValue(), (json) => isAnswered(() => readSetup(json))),
      { numRuns: 500 },
    ));

  it("random values of the program", () =>
    fc.assert(
      fc.property(
        fc.anything({ withBigInt: true, withDate: true, withMap: true, withTypedArray: true }),
        (value) => isAnswered(() => readSetup(value)),
      ),
      { numRuns: 500 },
    ));

  it("random text", () =>
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => isAnswered(() => readSetupText(text))),
    ));

  const places = allPlaces(exampleFile());
  const junk = fc.oneof(
    fc.jsonValue(),
    fc.constantFrom(
      null,
      "",
      "NaN",
      "undefined",
      -1,
      0,
      1e300,
      "1/0 in",
      [],
      {},
      "__proto__",
      Number.NaN,
      Infinity,
    ),
    fc.constantFrom(undefined, 3n, Symbol("junk"), () => 1),
  );
  const mutation = fc.record({
    place: fc.constantFrom(...places),
    how: fc.constantFrom("delete", "replace", "add", "reverse"),
    junk,
    key: fc.oneof(
      fc.string(),
      fc.constantFrom("__proto__", "constructor", "hasOwnProperty", "length", "$ref"),
    ),
  });

  it("the example with parts deleted, replaced, added or reversed", () => {
    let refused = 0;
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 4 }), (mutations) => {
        const file = exampleFile();
        for (const { place, how, junk: value, key } of mutations) mutate(file, place, how, value, key);
        refused += refusal(() => readSetup(file)).length > 0 ? 1 : 0;
      }),
      { numRuns: 1500 },
    );
    expect(refused).toBeGreaterThan(1000);
  });

  it("text of the example with a piece cut out or put in", () => {
    const text = JSON.stringify(exampleFile());
    const cut = fc.record({
      from: fc.nat(text.length),
      length: fc.nat(6),
      put: fc.oneof(
        fc.string({ maxLength: 3 }),
        fc.constantFrom(...'{ } [ ] , : " \\ 1e 0 - null \n'.split(" ")),
      ),
    });
    fc.assert(
      fc.property(cut, ({ from, length, put }) =>
        isAnswered(() => readSetupText(text.slice(0, from) + put + text.slice(from + length))),
      ),
      { numRuns: 1500 },
    );
  });
});

type Place = (string | number)[];
type Tree = Record<string | number, unknown>;

/** Every place in a tree but its root. */
function allPlaces(tree: unknown, at: Place = []): Place[] {
  if (typeof tree !== "object" || tree === null) return [];
  return Object.entries(tree).flatMap(([key, part]) => {
    const place = [...at, Array.isArray(tree) ? Number(key) : key];
    return [place, ...allPlaces(part, place)];
  });
}

/** The object or list that holds a place; undefined when an earlier change took it away. */
function holderOf(tree: unknown, place: Place): Tree | undefined {
  let holder = tree;
  for (const step of place.slice(0, -1)) {
    if (typeof holder !== "object" || holder === null) return undefined;
    holder = (holder as Tree)[step];
  }
  return typeof holder === "object" && holder !== null ? (holder as Tree) : undefined;
}

/** Puts a value at a path as messages write it, or takes away what is there. */
function put(tree: unknown, path: string, value: unknown): void {
  const place = path.match(/\w+/g)!.map((key) => (/^\d+$/.test(key) ? Number(key) : key));
  const holder = holderOf(tree, place)!;
  const last = place[place.length - 1];
  if (value === undefined) delete holder[last];
  else holder[last] = value;
}

function mutate(tree: unknown, place: Place, how: string, junk: unknown, key: string): void {
  const holder = holderOf(tree, place);
  if (holder === undefined) return;
  const last = place[place.length - 1];
  const there = holder[last];
  if (how === "delete") delete holder[last];
  if (how === "replace") holder[last] = junk;
  if (how === "add" && !(Array.isArray(holder) && key === "length"))
    Object.defineProperty(holder, key, { value: junk, enumerable: true, writable: true, configurable: true });
  if (how === "reverse" && Array.isArray(there)) there.reverse();
}
