// npm run test:fast: what to run while working. The checks and the tests of the project node, side by side; the checks say their piece after them.
import { spawn } from "node:child_process";

const ended = (running) => new Promise((done) => running.on("close", (status) => done(status ?? 1)));

const said = [];
const check = spawn(process.execPath, ["scripts/check.mjs"], { stdio: ["ignore", "pipe", "pipe"] });
for (const stream of [check.stdout, check.stderr]) stream.on("data", (piece) => said.push(piece));
const tests = spawn("node_modules/.bin/vitest", ["run", "--project", "node"], { stdio: "inherit" });

const [checkStatus, testStatus] = await Promise.all([ended(check), ended(tests)]);
process.stdout.write(Buffer.concat(said));
if (checkStatus !== 0)
  console.error("The checks failed (types, lint, import directions or dead code): see above.");
process.exit(checkStatus || testStatus);
