/** A stream of setups, one JSON value a line, to every command that README names with a setup. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const folder = mkdtempSync(join(tmpdir(), "annulus-stream-"));
afterAll(() => rmSync(folder, { recursive: true }));

const README = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
/** As README writes them, in the folder of the project. */
const COMMANDS = README.split("\n")
  .map((line) => line.replace(/ +[#>].*$/, "").split(/\s+/))
  .filter((words) => words[3] === "annulus" && words[6] === "shared/demo.setup.json")
  .map((words) => ({ command: words[5], rest: words.slice(7) }))
  // twice the same command is one and the same way in
  .filter(({ command }, i, all) => all.findIndex((one) => one.command === command) === i);

/** What README asks for takes long for what is asked here. */
const QUICKER: Readonly<Record<string, readonly string[]>> = {
  design: ["--restarts", "1", "--steps", "2"],
  uncertainty: ["--monte-carlo", "20"],
  sweep: ["--gaps", "1:3:1"],
  curve: ["--frequencies", "100:300:10"],
  slots: [],
  compare: ["--no-sensitivity"],
};

const plain = JSON.parse(readFileSync("shared/demo.setup.json", "utf8"));
const named = (name: string) => JSON.stringify({ ...plain, name });
const stream = `${named("one")}\n\n{"format":1}\r\n${named("two")}\n`;
const curve = join(folder, "curve.csv");
writeFileSync(
  curve,
  annulus(["curve", "shared/demo.setup.json", "--gap", "3mm", "--frequencies", "80:900:4"]).stdout,
);

function argumentsOf({ command, rest }: (typeof COMMANDS)[number]): string[] {
  const options = rest.map((one) => (one === "curve.csv" ? curve : one));
  const at = options.indexOf("--leadpipe");
  // into one setup only, as the command says
  if (at >= 0) options.splice(at, 2);
  const format = options.indexOf("--format");
  if (format >= 0) options.splice(format, 2);
  const many = options.indexOf("--monte-carlo");
  if (many >= 0) options.splice(many, 2);
  return [command, "-", ...options, ...(QUICKER[command] ?? []), "--format", "json"];
}

describe("a stream of setups", () => {
  it("is asked of each command that README names with a setup", () => {
    expect(COMMANDS.map(({ command }) => command)).toEqual([
      "sweep",
      "modes",
      "curve",
      "cut",
      "wrap",
      "gauge",
      "flow",
      "verdicts",
      "slots",
      "compare",
      "design",
      "measured",
      "uncertainty",
    ]);
  });

  it.each(COMMANDS)("is answered a line each by $command, and a bad line stops no other", (one) => {
    const { stdout, stderr, status } = annulus(argumentsOf(one), stream);
    const answers = stdout
      .trimEnd()
      .split("\n")
      .map((text) => JSON.parse(text));
    expect(answers.map(({ line }) => line)).toEqual([1, 4]);
    // a design's setup is the designed one
    expect(answers.map(({ setup }) => setup.name ?? setup)).toEqual(["one", "two"]);
    for (const answer of answers) expect(answer.warnings).toEqual([]);
    expect(stderr).toMatch(/^annulus: line 3: .*$/m);
    expect(stderr).toMatch(/^annulus: 1 of 3 lines failed$/m);
    expect(status).toBe(1);
    expect(stdout).not.toMatch(/NaN|undefined/);
  });

  it("whose first line is broken is still a stream", () => {
    const { stdout, stderr } = annulus(
      ["modes", "-", "--modes", "2", "--format", "json"],
      `{"format":\n${named("one")}\n${named("two")}\n`,
    );
    expect(
      stdout
        .trimEnd()
        .split("\n")
        .map((line) => JSON.parse(line).line),
    ).toEqual([2, 3]);
    expect(stderr).toMatch(/^annulus: line 1: /m);
  });

  it("that was shared out down to one line is answered on one line", () => {
    const alone = annulus(["modes", "-", "--modes", "2", "--format", "json"], `${named("one")}\n`);
    expect(alone.stdout.trimEnd().split("\n").length).toBe(1);
    expect(JSON.parse(alone.stdout)).toMatchObject({ line: 1, setup: "one" });
    expectRefused(annulus(["modes", "-", "--format", "json"], '{"format":1}\n'), /^annulus: (?!line)/);
  });

  it("asks for JSON, and is no place for leadpipes", () => {
    const both = `${named("one")}\n${named("two")}\n`;
    for (const command of ["modes", "compare"])
      expectRefused(annulus([command, "-"], both), /answered one a line: add --format json/);
    expectRefused(
      annulus(["compare", "-", "--leadpipe", "shared/demo.leadpipe.csv", "--format", "json"], both),
      /--leadpipe puts leadpipes into one setup; give one, not a stream of them/,
    );
    const [one, two] = annulus(["compare", "-", "--no-sensitivity", "--format", "json"], both)
      .stdout.trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect([one.name, two.name]).toEqual(["one", "two"]);
    expect(two.modes[3].shift_cents).toBeCloseTo(0, 9);
  });
});
