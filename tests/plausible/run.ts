/**
 * Ten thousand drawn setups put to the model, one after the other, with what became of them and the slowest by their seeds:
 *
 *   npx tsx tests/plausible/run.ts [count] [first seed]
 *
 * Seconds are of the processor, one core. Exit 1 where something was thrown that is no refusal, or a number is not one.
 */
import { drawnSetup } from "./drawnSetup.ts";
import { type Trial, trial } from "./trial.ts";

interface Run extends Trial {
  readonly seed: number;
  readonly seconds: number;
}

const [count = 10_000, first = 0] = process.argv.slice(2).map(Number);
const runs: Run[] = [];
const thrown: string[] = [];
for (let seed = first; seed < first + count; seed++) {
  const file = drawnSetup(seed);
  const begun = process.cpuUsage();
  try {
    const made = trial(file);
    const { user, system } = process.cpuUsage(begun);
    runs.push({ ...made, seed, seconds: (user + system) / 1e6 });
  } catch (error) {
    thrown.push(`${seed}: ${error instanceof Error ? error.stack : error}`);
  }
  const done = seed + 1 - first;
  if (done % 500 === 0) process.stderr.write(`${done} of ${count}\n`);
}

const accepted = runs.filter(({ refused }) => refused === null);
const seeds = (some: readonly Run[]) => some.map(({ seed }) => seed).join(", ") || "none";
console.log(
  `${count} setups: ${accepted.length} accepted, ${count - accepted.length - thrown.length} refused, ${thrown.length} thrown`,
);
console.log(`accepted without a resonance: ${accepted.filter(({ modes }) => modes === 0).length}`);
console.log(`Re Z < 0: ${seeds(accepted.filter(({ leastReal }) => leastReal < 0))}`);
console.log(`not finite: ${seeds(accepted.filter(({ notFinite }) => notFinite > 0))}`);
console.log("slowest accepted (seed, s, sections passed):");
for (const { seed, seconds, work } of [...accepted].sort((a, b) => b.seconds - a.seconds).slice(0, 10))
  console.log(`  ${seed}  ${seconds.toFixed(2)}  ${work}`);
console.log("slowest refused (seed, s):");
for (const { seed, seconds } of runs
  .filter(({ refused }) => refused)
  .sort((a, b) => b.seconds - a.seconds)
  .slice(0, 5))
  console.log(`  ${seed}  ${seconds.toFixed(2)}`);
console.log("most frequent refusals:");
const reasons = new Map<string, number>();
for (const { refused } of runs) {
  const reason = refused?.replace(/-?[\d.]+(e[+-]?\d+)?/g, "…").slice(0, 70);
  if (reason) reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
}
for (const [reason, times] of [...reasons].sort((a, b) => b[1] - a[1]).slice(0, 20))
  console.log(`  ${times}  ${reason}`);
for (const one of thrown) console.log(one);
process.exitCode = thrown.length > 0 || accepted.some(({ notFinite }) => notFinite > 0) ? 1 : 0;
