import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const takes = "tests/reference/listen/";

describe("annulus listen", () => {
  it("held notes in JSON, by the names of the reference", () => {
    const args = [
      "listen",
      `${takes}steady-trumpet-three.wav`,
      "--test",
      "steady",
      "--near",
      "466Hz",
      "--format",
      "json",
    ];
    const { stdout, stderr, status } = annulus(args);
    expect([status, stderr]).toEqual([0, ""]);
    const answer = JSON.parse(stdout);
    expect(answer).toMatchObject({
      test: "steady",
      sample_rate_hz: 16000,
      seconds: 6.3,
      clipped_samples: 0,
      warnings: [],
    });
    expect(answer.level_dbfs - answer.noise_dbfs).toBeGreaterThan(50);
    expect(answer.notes.length).toBe(3);
    expect(Object.keys(answer.notes[0])).toEqual(["from_s", "to_s", "hz", "cents_u", "scatter_cents"]);
    expect(answer.notes[1].hz).toBeGreaterThan(461.9);
    expect(answer.notes[1].hz).toBeLessThan(462.7);
  });

  it("a slot in JSON, CSV and as a table", () => {
    const args = ["listen", `${takes}slot-trumpet.wav`, "--test", "slot", "--near", "466"];
    const { slot, bends } = JSON.parse(annulus([...args, "--format", "json"]).stdout);
    expect(slot).toMatchObject({ low_break: true, high_break: true });
    expect(Math.abs(slot.width_cents - 108.48)).toBeLessThan(10);
    expect(Math.abs(slot.low_hz - 449.05)).toBeLessThan(2);
    expect(Math.abs(slot.high_hz - 478.09)).toBeLessThan(2);
    expect(bends.map(({ side, end }: { side: string; end: string }) => [side, end])).toEqual([
      ["low", "broke"],
      ["high", "broke"],
      ["low", "broke"],
      ["high", "broke"],
    ]);
    const csv = annulus([...args, "--format", "csv"])
      .stdout.trimEnd()
      .split("\n");
    expect(csv[0]).toBe("at_s,side,hz,cents,end");
    expect(csv.length).toBe(5);
    const table = annulus(args).stdout;
    expect(table).toMatch(/^12\.6 s; playing -\d+ dB, room -\d+ dB of full scale\n/);
    expect(table).toMatch(/Slot of 46\d\.\d\d Hz: low end -6\d\.\d cents \(breaks, scatter \d/);
    expect(table).toMatch(/width 1\d\d\.\d ± \d\.\d \(standard uncertainty\) cents\.\n$/);
    expect(table).not.toMatch(/NaN|undefined|null/);
  });

  it("slurs and attacks with the share that missed and its interval; standard input", () => {
    const slur = [
      "listen",
      `${takes}slur-trumpet.wav`,
      "--test",
      "slur",
      "--notes",
      "233Hz,349Hz,466Hz,586Hz",
    ];
    const { slurs, missed } = JSON.parse(annulus([...slur, "--format", "json"]).stdout);
    expect(slurs.map(({ result }: { result: string }) => result)).toEqual(
      "hit hit high hit hit hit cracked hit".split(" "),
    );
    expect(Object.keys(slurs[0])).toEqual(["at_s", "from_hz", "to_hz", "landed_hz", "result", "settle_s"]);
    expect(missed).toMatchObject({ count: 2, of: 8, share: 0.25 });
    expect(annulus(slur).stdout).toMatch(/Missed 2 of 8: 25 %, 95 % interval 7 % to 59 %\.\n$/);
    const bytes = readFileSync(`${takes}attack-trombone.wav`);
    const attack = [
      "listen",
      "-",
      "--test",
      "attack",
      "--near",
      "233Hz",
      "--notes",
      "175Hz,233Hz,291Hz",
      "--format",
      "json",
    ];
    const { attacks } = JSON.parse(annulus(attack, bytes).stdout);
    expect(attacks.map(({ result }: { result: string }) => result === "missed").map(Number)).toEqual([
      0, 0, 1, 0, 0, 1, 0, 0, 1, 0,
    ]);
  });

  it("warns in words, on standard error where the answer is for people", () => {
    const clipped = ["listen", `${takes}clipped.wav`, "--test", "steady", "--near", "392Hz"];
    expect(annulus(clipped).stderr).toMatch(/^annulus: warning: Too loud for the microphone: 1766 samples/);
    expect(JSON.parse(annulus([...clipped, "--format", "json"]).stdout).warnings).toEqual([
      expect.stringMatching(/^Too loud for the microphone/),
    ]);
    const noise = annulus(["listen", `${takes}noise-only.wav`, "--test", "steady", "--near", "233Hz"]);
    expect(noise.stdout).toMatch(/nothing found/);
    expect(noise.stderr).toMatch(/No note was heard/);
  });

  it("refuses what is no recording, no frequency or no test, in one line", () => {
    const test = ["--test", "steady"];
    expectRefused(
      annulus(["listen", "nowhere.wav", ...test]),
      /nowhere\.wav: there is no such file; give the path of a recording/,
    );
    expectRefused(annulus(["listen", "tests", ...test]), /tests: that is a folder/);
    expectRefused(annulus(["listen", "package.json", ...test]), /package\.json: this is no WAV file; give/);
    expectRefused(annulus(["listen", "-", ...test]), /standard input: the file is empty/);
    const clipped = `${takes}clipped.wav`;
    expectRefused(
      annulus(["listen", clipped, ...test, "--near", "B flat"]),
      /--near: "B flat" is no frequency; give one such as 466Hz/,
    );
    expectRefused(annulus(["listen", clipped, ...test, "--notes", "233,"]), /--notes: "" is no frequency/);
    expectRefused(
      annulus(["listen", clipped, ...test, "--near", "9000"]),
      /a note of 9000 Hz is none of brass/,
    );
    expect(annulus(["listen", clipped]).status).toBe(2);
    expect(annulus(["listen", clipped, "--test", "sing"]).status).toBe(2);
  });
});
