/**
 * Speed, measured against rivals doing the same job in the same run, never on a clock alone: `npm run bench`, or with
 * `--json` for [{name, value, goal, met}]. A rival that this machine has not got is said to be absent.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { AirColumn } from "../../src/acoustics/airColumn.ts";
import { resonancesOf } from "../../src/acoustics/resonance/resonances.ts";
import { benchHorn } from "./horn.ts";
import { impedance } from "./mathjsCascade.ts";

export interface Row {
  readonly name: string;
  /** null where the rival is absent. */
  readonly value: number | null;
  /** null where the row is for information. */
  readonly goal: number | null;
  readonly unit: "×" | "ms" | "kB" | "s";
  readonly better: "more" | "less";
  readonly note?: string;
}

const reference = (name: string) => fileURLToPath(new URL(`../reference/${name}`, import.meta.url));

/** Shortest of several runs, s: the machine's own noise only ever adds. */
export function best(runs: number, work: () => void): number {
  let shortest = Infinity;
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    work();
    shortest = Math.min(shortest, (performance.now() - start) / 1000);
  }
  return shortest;
}

function rivals(air: object, sections: readonly (readonly number[])[]) {
  const folder = mkdtempSync(join(tmpdir(), "annulus-bench-"));
  const input = join(folder, "horn.json");
  const text = join(folder, "horn.txt");
  const { density, soundSpeed, viscosity, heatRatio, prandtl } = air as Record<string, number>;
  writeFileSync(input, JSON.stringify({ air, sections }));
  writeFileSync(
    text,
    [[density, soundSpeed, viscosity, heatRatio, prandtl], [sections.length], ...sections]
      .map((row) => row.join(" "))
      .join("\n"),
  );
  const seconds = (command: string, args: string[], env = {}): number | null => {
    const { status, stdout } = spawnSync(command, args, {
      encoding: "utf8",
      env: { ...process.env, ...env },
    });
    return status === 0 ? (JSON.parse(stdout) as { seconds: number }).seconds : null;
  };
  const oneCore = { OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1" };
  const python = ["/usr/bin/python3", "python3"].find(
    (command) => spawnSync(command, ["-c", "import scipy, numpy"], { stdio: "ignore" }).status === 0,
  );
  const binary = join(folder, "cascade");
  const compiled =
    spawnSync("cc", ["-O2", reference("duct/cascade.c"), "-lm", "-o", binary], { stdio: "ignore" }).status ===
    0;
  return {
    numpy: python ? seconds(python, [reference("duct/cascade.py"), input], oneCore) : null,
    c: compiled ? seconds(binary, [text]) : null,
  };
}

export function modelRows(): Row[] {
  const { setup, gapMm, sections } = benchHorn();
  if (setup.air.kind !== "constants") throw new Error("the reference bore gives its air as constants");
  const { air } = setup;
  const frequencies = Float64Array.from({ length: 3921 }, (_, i) => 40 + 0.5 * i);
  const cold = () => {
    const column = new AirColumn(setup, 40, 2000);
    const gap = column.line.gap(gapMm / 1000);
    column.curve(column.grid(frequencies), gap);
    if (resonancesOf(column, gap, 12).length !== 12) throw new Error("twelve resonances were expected");
  };
  best(3, cold);
  const coldSeconds = best(7, cold);
  const { numpy, c } = rivals(air, sections);
  const few = [100, 1000];
  const mathjsSeconds =
    (best(1, () => {
      for (const f of few) impedance(air, sections, f);
    }) *
      frequencies.length) /
    few.length;

  // with the modal gap, whose radial modes are part of the cost
  const modal = new AirColumn({ ...setup, model: { ...setup.model, junction: "modal" } }, 40, 2000);
  const screen = modal.grid(Float64Array.from({ length: 1600 }, (_, i) => 40 * 50 ** (i / 1599)));
  let next = 0;
  const newGap = () => {
    const gap = modal.line.gap(0.001 + 0.000037 * (next++ % 150));
    modal.curve(screen, gap);
    resonancesOf(modal, gap, 12);
  };
  best(60, newGap);
  const gaps = 40;
  const newGapSeconds =
    best(5, () => {
      for (let i = 0; i < gaps; i++) newGap();
    }) / gaps;
  const grid = modal.grid(frequencies);
  const manySeconds = best(4, () => {
    for (let i = 0; i < 161; i++) modal.curve(grid, modal.line.gap(0.00005 * i));
  });
  const ratio = (rival: number | null) => (rival === null ? null : rival / coldSeconds);
  return [
    {
      name: `cold curve and 12 resonances, ${sections.length} cones, against NumPy/SciPy`,
      value: ratio(numpy),
      goal: 40,
      unit: "×",
      better: "more",
    },
    {
      name: "the same against plain C, every cone at every frequency",
      value: ratio(c),
      goal: 1,
      unit: "×",
      better: "more",
    },
    {
      name: "the same against mathjs matrices (scaled from two frequencies)",
      value: ratio(mathjsSeconds),
      goal: null,
      unit: "×",
      better: "more",
    },
    {
      name: "a new gap: curve at screen resolution and 12 resonances",
      value: 1000 * newGapSeconds,
      goal: 2,
      unit: "ms",
      better: "less",
    },
    { name: "161 gaps × 3921 frequencies", value: 1000 * manySeconds, goal: 100, unit: "ms", better: "less" },
  ];
}
