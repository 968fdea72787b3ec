// What the gap does to the demo instrument: its resonances at two gaps, and what the trade's rule of thumb says beside it.
//   npm run build:model && node docs/example.mjs
import { readFileSync } from "node:fs";
import { coverageFactor, Exploration, evidenceWords, FINDING, readSetupText } from "annulus";

const setup = readSetupText(readFileSync(new URL("../shared/demo.setup.json", import.meta.url), "utf8"));
const [fromMm, toMm] = [1, 3.5];
const { reference, chosen, changes, verdicts } = new Exploration(setup, coverageFactor).explore(
  toMm,
  fromMm,
  4,
);

console.log(`${setup.name}: from ${fromMm} mm to ${toMm} mm of gap`);
console.log(" n   Hz before    Hz after   cents     dB");
for (const [i, { n, shiftCents, heightDb }] of changes.entries()) {
  const hertz = [reference, chosen].map(({ modes }) => modes[i].frequencyHz.toFixed(2).padStart(10));
  const change = [shiftCents, heightDb ?? Number.NaN].map((value) => value.toFixed(2).padStart(7));
  console.log(String(n).padStart(2), ...hertz, ...change);
}
for (const { claim, finding, ...evidence } of verdicts)
  if (finding) console.log(`${claim}: ${FINDING[finding]}. ${evidenceWords({ finding, ...evidence })}`);
