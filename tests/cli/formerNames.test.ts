/** Options and keys of before the trade's names: a script that uses them gets what it got, and nothing is said. */
import { Command } from "commander";
import { describe, expect, it } from "vitest";
import { cutCommand } from "../../src/cli/bench/cut.ts";
import { fitCommand } from "../../src/cli/bench/fit.ts";
import { flowCommand } from "../../src/cli/instrument/flow.ts";
import { slotsCommand } from "../../src/cli/instrument/slots.ts";
import { sweepCommand } from "../../src/cli/instrument/sweep.ts";
import { uncertaintyCommand } from "../../src/cli/instrument/uncertainty.ts";
import { verdictsCommand } from "../../src/cli/instrument/verdicts.ts";
import { compareCommand } from "../../src/cli/leadpipe/compare.ts";
import { designCommand } from "../../src/cli/leadpipe/design.ts";
import { withFormerKeys } from "../../src/cli/terminal/formerNames.ts";
import { annulus } from "./run.ts";

const demo = "shared/demo.setup.json";
const outcome = (line: string) => {
  const { status, stdout, stderr } = annulus(line.split(" "));
  return { status, stdout, stderr };
};

const OF = {
  sweep: sweepCommand,
  slots: slotsCommand,
  verdicts: verdictsCommand,
  uncertainty: uncertaintyCommand,
  flow: flowCommand,
  compare: compareCommand,
  cut: cutCommand,
  design: designCommand,
  fit: fitCommand,
};

function parsed(name: keyof typeof OF, line: string) {
  const program = new Command();
  OF[name](program);
  const [command] = program.commands;
  const { unknown } = command.parseOptions(line.split(" "));
  return { options: command.opts(), unknown, help: command.helpInformation() };
}

describe("former names", () => {
  it.each([
    ["sweep", "--compared-with 2mm", "--reference 2mm"],
    ["slots", "--compared-with 2mm", "--reference 2mm"],
    ["verdicts", "--compared-with 2mm", "--reference 2mm"],
    ["uncertainty", "--compared-with 2mm", "--reference 2mm"],
    ["flow", "--compared-with 1mm --just-noticeable 3", "--reference 1mm --threshold 3"],
    ["compare", "--compared-with 2", "--reference 2"],
    ["cut", "--planned 2mm --gap-per-mark 0.5mm", "--target 2mm --stop-per-mark 0.5mm"],
    ["design", "--free-start", "--free-entry"],
    ["fit", "--contact-tolerance 0.02mm", "--clearance 0.02mm"],
  ] as const)("%s takes its former options, and hides them", (name, today, former) => {
    const now = parsed(name, today);
    expect(now.unknown).toEqual([]);
    expect(parsed(name, former)).toEqual(now);
    for (const option of today.match(/--[a-z-]+/g)!) {
      expect(now.help).toContain(option);
      const key = option.slice(2).replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
      expect(now.options[key]).toBeDefined();
    }
    for (const option of former.match(/--[a-z-]+/g)!) expect(now.help).not.toContain(option);
  });

  it("nothing is said about them", () => {
    const now = outcome(`cut ${demo} --uncertainty 0.03mm --planned 2mm`);
    expect(now.status).toBe(0);
    expect(outcome(`cut ${demo} --uncertainty 0.03mm --target 2mm`)).toEqual(now);
  });

  it("a mandatory option is asked for by today's name", () => {
    expect(annulus(["cut", demo]).stderr).toContain("--planned");
    expect(annulus(["cut", demo]).status).toBe(2);
  });

  it("keys of before stand beside today's, with the same values", () => {
    const json = (line: string) => JSON.parse(outcome(`${line} --format json`).stdout);
    const slots = json(`slots ${demo}`);
    expect(slots.reference_gap_mm).toBe(slots.compared_with_gap_mm);
    expect(slots.pressure).toEqual({ times_starting_pressure: 1.3, times_threshold: 1.3 });
    for (const row of slots.rows) {
      expect(row.slot_width_cents).not.toBeUndefined();
      expect([row.hold_cents, row.threshold_Pa, row.threshold_lip_Hz, row.threshold_playing_Hz]).toEqual([
        row.slot_width_cents,
        row.starting_pressure_Pa,
        row.starting_lip_Hz,
        row.starting_playing_Hz,
      ]);
    }
    const sweep = json(`sweep ${demo} --gaps 1:2:1 --modes 2`);
    expect(sweep.reference_gap_mm).toBe(sweep.compared_with_gap_mm);
    const cut = json(`cut ${demo} --planned 2mm`);
    expect([cut.planned_gap_mm, cut.target_mm]).toEqual([2, 2]);
    const [change] = json(`flow ${demo} --gap 3mm --compared-with 1mm`).changes;
    expect(change.just_noticeable_percent).toBeGreaterThan(0);
    expect([change.reference_gap_mm, change.threshold_percent, change.finding_at_half_threshold]).toEqual([
      1,
      change.just_noticeable_percent,
      change.finding_at_half_just_noticeable,
    ]);
    const compare = json(`compare ${demo} --notes --no-sensitivity --modes 4`);
    expect(compare.variants).toEqual(compare.candidates);
    expect(compare.reference).toBe(compare.compared_with);
    expect(compare.variants[0].notes[0].hold_cents).toBe(compare.candidates[0].notes[0].slot_width_cents);
    const gap = json("gap --depth 24.54mm --insertion 22mm");
    expect(gap.outlying).toEqual(gap.outliers);
    const drawn = json(`uncertainty ${demo} --compared-with 2.5mm --gap 3mm --monte-carlo 5`);
    expect([drawn.drawn, drawn.rows[0].drawn_u_shift_cents]).toEqual([
      5,
      drawn.rows[0].monte_carlo_u_shift_cents,
    ]);
    const design = json(`design ${demo} --goal cents2=0 --restarts 1 --steps 2`);
    expect([design.miss_after, design.starts[0].miss, design.targets[0].missed_by]).toEqual([
      design.rms_residual_after,
      design.starts[0].rms_residual,
      design.targets[0].residual,
    ]);
  });

  it("follow today's columns, which keep their places", () => {
    expect(Object.keys(withFormerKeys({ now: 1, other: 2 }, { now: "before" }))).toEqual([
      "now",
      "other",
      "before",
    ]);
    expect(withFormerKeys([{ now: [{ now: null }] }], { now: "before" })).toEqual([
      { now: [{ now: null, before: null }], before: [{ now: null, before: null }] },
    ]);
  });
});
