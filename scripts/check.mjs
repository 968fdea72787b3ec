// npm run check: types, lint, import directions, and what nothing uses (knip.jsonc), side by side; each says its piece when it has ended.
import { spawn } from "node:child_process";

/** What each has read of files that are as they were; so too the compiler (tsconfig.json). */
const caches = "node_modules/.cache";

const parts = [
  ["tsc", "--noEmit"],
  ["biome", "check", "--error-on-warnings", "."],
  [
    "depcruise",
    "--config",
    ".dependency-cruiser.mjs",
    "--cache",
    `${caches}/depcruise`,
    "--cache-strategy",
    "content",
    "src",
    "workers",
    "tests",
    "notebooks",
  ],
  ["knip", "--cache", "--cache-location", `${caches}/knip`],
];

const check = ([command, ...args]) =>
  new Promise((done) => {
    const running = spawn(`node_modules/.bin/${command}`, args, { stdio: ["ignore", "pipe", "pipe"] });
    const said = [];
    for (const stream of [running.stdout, running.stderr]) stream.on("data", (piece) => said.push(piece));
    running.on("close", (status) => {
      process.stdout.write(Buffer.concat(said));
      done(status === 0);
    });
  });

const isSound = await Promise.all(parts.map(check));
process.exit(isSound.every(Boolean) ? 0 : 1);
