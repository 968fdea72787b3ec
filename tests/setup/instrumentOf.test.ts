import { expect, test } from "vitest";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../src/setup/file/writeSetup.ts";
import { INSTRUMENT_KINDS } from "../../src/setup/instrumentKind.ts";
import { instrumentOf } from "../../src/setup/instrumentOf.ts";
import { standIn } from "../../src/setup/standIns.ts";
import { demo as demoOf } from "../acoustics/setups.ts";

const demo = demoOf();

test("a setup is of the instrument its file states, and keeps it", async () => {
  for (const kind of INSTRUMENT_KINDS) {
    const setup = await standIn(kind);
    expect(setup.instrument).toBe(kind);
    expect(instrumentOf({ ...setup, name: "Trombone" })).toBe(kind);
    expect(readSetup(writeSetup(setup)).instrument).toBe(kind);
  }
});

test("an older file is of the instrument its name says, and else of the one as long", async () => {
  const old = (setup: typeof demo, name: string) => {
    const { instrument: _, ...rest } = setup;
    return { ...rest, name };
  };
  expect(instrumentOf(old(demo, demo.name))).toBe("b-flat-trumpet");
  expect(instrumentOf(old(demo, "My old cornet"))).toBe("cornet");
  for (const kind of [
    "c-trumpet",
    "e-flat-trumpet",
    "bass-trombone",
    "euphonium",
    "tuba",
    "horn-f",
  ] as const) {
    const setup = await standIn(kind);
    expect(instrumentOf(old(setup, setup.name))).toBe(kind);
  }
  expect(instrumentOf(old(await standIn("horn-b-flat"), "Double horn, B-flat side"))).toBe("horn-b-flat");
  // nothing but its length: nine feet are taken for a trombone, at concert pitch
  expect(instrumentOf(old(await standIn("euphonium"), "no. 12"))).toBe("tenor-trombone-small");
  expect(instrumentOf(old(await standIn("tuba"), "no. 12"))).toBe("tuba");
  expect(instrumentOf(old(await standIn("c-trumpet"), "no. 12"))).toBe("c-trumpet");
});

test("an instrument that nobody names is refused with what would do", () => {
  expect(() => readSetup({ ...writeSetup(demo), instrument: "kazoo" })).toThrow(/instrument/);
});
