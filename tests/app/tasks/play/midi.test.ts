import { describe, expect, test } from "vitest";
import { midiPlayer, readMidi } from "../../../../src/app/tasks/play/midi.ts";

describe("MIDI messages", () => {
  test.each([
    ["a note", [0x90, 69, 127], { kind: "note", note: 69, velocity: 1 }],
    ["on another channel", [0x95, 60, 64], { kind: "note", note: 60, velocity: 64 / 127 }],
    ["a note of no velocity ends one", [0x90, 69, 0], { kind: "release", note: 69 }],
    ["a note let go", [0x80, 69, 30], { kind: "release", note: 69 }],
    ["breath", [0xb0, 2, 127], { kind: "breath", breath: 1 }],
    ["another controller", [0xb0, 7, 127], null],
    ["the wheel at rest", [0xe0, 0, 64], { kind: "bend", cents: 0 }],
    ["the wheel at its lower end", [0xe0, 0, 0], { kind: "bend", cents: -200 }],
    ["a clock", [0xf8], null],
    ["nothing", [], null],
  ])("%s", (_, bytes, event) => {
    expect(readMidi(Uint8Array.from(bytes))).toEqual(event);
  });
});

describe("played from a keyboard", () => {
  function played(messages: readonly (readonly number[])[]) {
    const told: unknown[] = [];
    const play = midiPlayer(
      { blow: (blown) => told.push(blown), start: () => told.push("start"), stop: () => told.push("stop") },
      10_000,
    );
    for (const message of messages) play(readMidi(Uint8Array.from(message))!);
    return told;
  }

  test("a key sets the lips' pitch and begins, letting it go ends", () => {
    expect(
      played([
        [0x90, 69, 127],
        [0x80, 69, 0],
      ]),
    ).toEqual([{ lipHz: 440 }, { mouthPressure: 10_000 }, "start", "stop"]);
  });

  test("the last key counts: an earlier one let go ends nothing", () => {
    const told = played([
      [0x90, 57, 127],
      [0x90, 69, 127],
      [0x80, 57, 0],
    ]);
    expect(told).not.toContain("stop");
    expect(told).toContainEqual({ lipHz: 220 });
  });

  test("the wheel bends the note that is held and every later one; breath sets the pressure", () => {
    const told = played([
      [0xe0, 0, 127],
      [0x90, 69, 1],
      [0xb0, 2, 64],
    ]) as { lipHz: number }[];
    expect(told[0].lipHz).toBeCloseTo(440 * 2 ** ((200 * (127 * 128 - 8192)) / 8192 / 1200), 9);
    expect(told.at(-1)).toEqual({ mouthPressure: (10_000 * 64) / 127 });
  });
});
